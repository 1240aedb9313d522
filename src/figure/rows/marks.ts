import { svg, type SVGTemplateResult } from 'lit';
import { millilitres } from '../../ui/text/format.ts';
import { deliveredAtEnd, frameAt } from '../../../sim/history/index.ts';
import { depthAtFrame, type Drawing } from '../drawing.ts';
import { onLine } from '../../plot/place-labels.ts';
import { drawnWords, placedWords } from './labels.ts';

// What is laid over the rows: forecast, present moment, a depth that is pointed at.

const NOW_DROP = 34;
const AXIS_TITLE = 'delivered, mL';
const AXIS_UNIT = 'mL';
/** Least room between the two, px: closer together “now 60 mL” and “mL” read as one. */
const APART = 24;

/** Covers what is still to come: faint and hatched, or wholly when the forecast is not shown. */
export function veil({ layout: { poured, depth, effluent }, plan, x }: Drawing, now_mL: number, showForecast: boolean): SVGTemplateResult {
  const from = x(now_mL);
  const width = Math.max(0, x(deliveredAtEnd(plan)) - from);
  const rows = [
    ['poured', poured],
    ['depth', depth],
    ['effluent', effluent],
  ] as const;
  return svg`${rows.map(
    ([name, row]) => svg`<g class=${`veil ${name} ${showForecast ? '' : 'whole'}`}>
    <rect class="cover" x=${from} y=${row.top - 1} width=${width + 2} height=${row.bottom - row.top + 2}></rect>
    <rect x=${from} y=${row.top + 1} width=${width} height=${row.bottom - row.top - 2} fill="url(#hatch)"></rect></g>`,
  )}`;
}

/** The pattern that the veil is filled with. */
export function hatch(): SVGTemplateResult {
  return svg`<defs><pattern id="hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line class="hatch" x1="0" x2="0" y1="0" y2="7"></line></pattern></defs>`;
}

/** Where the run is. It ends at the axis, whose numbers stay clear of it, and words of the rows lie over it. */
export function nowLine({ layout: { poured, effluent }, x }: Drawing, now_mL: number): SVGTemplateResult {
  const at = x(now_mL);
  return svg`<g class="cursor now"><line x1=${at} x2=${at} y1=${poured.top} y2=${effluent.bottom}></line></g>`;
}

/** The moment in words, and the title of the axis at the end that this leaves free; the title gives way where it leaves neither. */
export function nowWords({ layout: { effluent, left, right, width }, x }: Drawing, now_mL: number): SVGTemplateResult {
  const at = x(now_mL);
  const y = effluent.bottom + NOW_DROP;
  const words = placedWords(
    [
      {
        texts: [`now ${millilitres(now_mL)}`],
        places: [{ x: at, y, anchor: 'middle' }],
        within: onLine(y, Math.max(8, left - 30), Math.min(width - 6, right + 30)),
        look: 'now-label',
      },
      {
        texts: [AXIS_TITLE, AXIS_UNIT],
        places: [
          { x: right, y, anchor: 'end' },
          { x: left, y, anchor: 'start' },
        ],
        within: onLine(y, left, right),
        look: 'axis-title',
      },
    ],
    { apart: APART },
  );
  return drawnWords(words);
}

/** A line at the height that a depth of the bed has at a delivered volume. */
export function depthMark(drawing: Drawing, depth_cm: number, at_mL: number): SVGTemplateResult {
  const y = depthAtFrame(drawing, frameAt(drawing.plan, at_mL))(depth_cm);
  const { left, right } = drawing.layout;
  return svg`<line class="depth-mark" x1=${left} x2=${right} y1=${y} y2=${y}></line>`;
}
