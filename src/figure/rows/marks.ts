import { nothing, svg, type SVGTemplateResult } from 'lit';
import { millilitres } from '../../ui/text/format.ts';
import { deliveredAtEnd, frameAt } from '../../../sim/history/index.ts';
import { depthAtFrame, type Drawing, depthScale } from '../drawing.ts';
import { type Box, textWidth } from './labels.ts';

// What is laid over the rows: forecast, present moment, predictions.

/** A prediction shown as a mark on the axis. */
export interface PredictionMark {
  readonly mL: number;
  readonly label: string;
  /** cm; where a band is predicted instead of what leaves. */
  readonly depth_cm?: number;
}

const NOW_DROP = 34;
const AXIS_TITLE = 'delivered, mL';

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

/** Where the run is, and the title of the axis at the end that this leaves free. */
export function nowLine({ layout: { poured, effluent, left, right }, x }: Drawing, now_mL: number): SVGTemplateResult {
  const at = x(now_mL);
  const text = `now ${millilitres(now_mL)}`;
  const half = textWidth(text) / 2;
  const title = textWidth(AXIS_TITLE) + 8;
  const titleAtEnd = at + half < right - title;
  // The title gives way where the moment leaves neither end free.
  const titled = titleAtEnd || at - half > left + title;
  return svg`${titled ? svg`<text class="axis-title" x=${titleAtEnd ? right : left} y=${effluent.bottom + NOW_DROP} text-anchor=${titleAtEnd ? 'end' : 'start'}>${AXIS_TITLE}</text>` : nothing}
    <g class="cursor now"><line x1=${at} x2=${at} y1=${poured.top} y2=${effluent.bottom + 22}></line>
    <text x=${Math.max(8 + half, left - 30 + half, Math.min(at, right + 30 - half))} y=${effluent.bottom + NOW_DROP} text-anchor="middle">${text}</text></g>`;
}

export function predictionMarks(drawing: Drawing, marks: readonly PredictionMark[]): SVGTemplateResult {
  const {
    layout: { effluent: row },
    x,
  } = drawing;
  const boxes = predictionBoxes(drawing, marks);
  return svg`<g class="predictions">${marks.map(({ mL, label, depth_cm }, i) =>
    depth_cm !== undefined
      ? depthPrediction(drawing, mL, depth_cm, label)
      : svg`<line x1=${x(mL)} x2=${x(mL)} y1=${row.top} y2=${row.bottom}></line>
    <path d=${`M${x(mL)} ${row.bottom - 7}l6 7l-6 7l-6 -7Z`}></path><text class="line-label" x=${boxes[i].left} y=${boxes[i].bottom - 4}>${label}</text>`,
  )}</g>`;
}

/** A cross where a band is expected, read on the ruler, and what is said of it. */
function depthPrediction(drawing: Drawing, mL: number, depth_cm: number, label: string): SVGTemplateResult {
  const { left, right } = drawing.layout;
  const [px, y] = [drawing.x(mL), depthScale(drawing)(depth_cm)];
  const turned = px + textWidth(label) + 12 > right && px - textWidth(label) - 12 > left;
  return svg`<line x1=${px} x2=${px} y1=${drawing.layout.depth.top} y2=${drawing.layout.depth.bottom}></line><path d=${`M${px} ${y - 7}l6 7l-6 7l-6 -7Z`}></path>
    <text class="line-label" x=${turned ? px - 10 : px + 10} y=${y + 5} text-anchor=${turned ? 'end' : 'start'}>${label}</text>`;
}

/** Where the words of the predictions stand; other words keep away. */
export function predictionBoxes({ layout: { effluent: row, left, right }, x }: Drawing, marks: readonly PredictionMark[]): Box[] {
  return marks.map(({ mL, label }, i) => {
    const width = textWidth(label);
    const turned = x(mL) + width + 6 > right && x(mL) - width - 6 > left;
    const at = turned ? x(mL) - width - 6 : x(mL) + 6;
    const middle = (row.top + row.bottom) / 2 + 17 * i;
    return { left: at, right: at + width, top: middle - 13, bottom: middle + 4 };
  });
}

/** A line at the height that a depth of the bed has at a delivered volume. */
export function depthMark(drawing: Drawing, depth_cm: number, at_mL: number): SVGTemplateResult {
  const y = depthAtFrame(drawing, frameAt(drawing.plan, at_mL))(depth_cm);
  const { left, right } = drawing.layout;
  return svg`<line class="depth-mark" x1=${left} x2=${right} y1=${y} y2=${y}></line>`;
}
