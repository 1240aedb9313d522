import { nothing, svg, type SVGTemplateResult } from 'lit';
import { IONS } from '../../sim/terms/ions.ts';
import { seriesStyle } from '../plot/series.ts';
import { type Drawing, depthAtFrame } from './drawing.ts';
import { type AcidGrid, frontPassages } from './streaks/fronts.ts';
import { deliveredAtEnd, deliveredOf, framesApart, type Plan, type Track } from '../../sim/history/index.ts';
import { crosses, type Point } from '../plot/box.ts';
import { onLine } from '../plot/place-labels.ts';
import { drawnWords, placedWords, type Worded } from './rows/labels.ts';
import { insideOf } from './rows/predictions.ts';
import { type Motion, motionsOf } from './streaks/motions.ts';

// Words beside the bands. They lie above the veil of the forecast.

const LINE_HEIGHT = 18;
const SAID: Readonly<Record<Motion['kind'], string>> = { runs: 'runs through', crawls: 'crawls', stays: 'stays', falls: 'falls' };
/** Depth, as a share of the bed, beside which the acid front is named. */
const FRONT_DEPTH = 0.88;
/** px between points of an edge that words keep off. */
const EDGE_PX = 3;

/** Words up to a delivered volume; what comes later is not told. What was predicted comes first. */
export function depthWords(
  drawing: Drawing,
  tracks: readonly Track[],
  acid: AcidGrid,
  until_mL = Number.POSITIVE_INFINITY,
  predictions: readonly Worded[] = [],
): SVGTemplateResult {
  const { plan } = drawing;
  const bands = tracks
    .flatMap((track) => motionsOf(plan, track).map((motion) => ({ track, motion })))
    .filter(({ motion }) => deliveredOf(plan, motion.frame) <= until_mL)
    .sort((a, b) => b.motion.span - a.motion.span)
    .map(({ track, motion }) => bandWish(drawing, track, motion));
  const lines = tracks.flatMap((track) => edgesOf(drawing, track, until_mL));
  const words = placedWords([...title(drawing), ...predictions, ...bands, ...frontWish(drawing, acid, until_mL)], {
    covers: (box) => lines.some((line) => crosses(line, box)),
  });
  return svg`<g class="words">${deliveredAtEnd(plan) > 0 ? nothing : nothingYet(drawing)}${drawnWords(words)}</g>`;
}

/** On a narrow figure the title of the axis stands in the row. */
function title({ layout: { narrow, left, right, depth } }: Drawing): Worded[] {
  const y = depth.top + 14;
  const within = onLine(y, left + 4, right - 4);
  return narrow ? [{ texts: ['depth in bed, cm'], places: [{ x: left + 4, y, anchor: 'start' }], within, look: 'row-title' }] : [];
}

function nothingYet({ layout: { depth, left, right, narrow } }: Drawing): SVGTemplateResult {
  const said = narrow ? 'nothing has run through yet' : 'Nothing has run through yet. Pour, and open the clamp.';
  return svg`<text class="row-title" x=${(left + right) / 2} y=${(depth.top + depth.bottom) / 2} text-anchor="middle">${said}</text>`;
}

function bandWish(drawing: Drawing, track: Track, { kind, frame, ion }: Motion): Worded {
  const { layout, plan, x } = drawing;
  const symbol = symbolOf(ion);
  const full = `${symbol} ${SAID[kind]}`;
  const brief = `${symbol} ${SAID[kind].split(' ')[0]}`;
  // A fast band stands steep: its word goes to the right of it. A slow one lies flat: below it.
  const fast = kind === 'runs' || kind === 'falls';
  const px = fast ? x(passage(plan, track, frame)) + 8 : x(deliveredOf(plan, frame));
  const y = depthAtFrame(drawing, frame)(fast ? track.middle_cm[frame] : track.leading_cm[frame]) + (fast ? 4 : LINE_HEIGHT);
  return {
    texts: layout.narrow ? [brief] : [full, brief],
    places: [{ x: px, y, anchor: fast ? 'start' : 'middle' }],
    within: insideOf(layout, layout.depth),
    look: 'line-label',
    colour: seriesStyle(ion).text,
  };
}

/** Edges of a band as lines, thinned: finer is not seen. */
function edgesOf(drawing: Drawing, { trailing_cm, leading_cm }: Track, until_mL: number): Point[][] {
  const { plan, x } = drawing;
  const frames = framesApart(plan, x.invert(EDGE_PX) - x.invert(0)).filter((frame) => deliveredOf(plan, frame) <= until_mL);
  return [trailing_cm, leading_cm].map((depths) =>
    frames.flatMap((frame) => (Number.isNaN(depths[frame]) ? [] : [{ x: x(deliveredOf(plan, frame)), y: depthAtFrame(drawing, frame)(depths[frame]) }])),
  );
}

/** Volume at which the trailing edge passes the depth that the middle of the band has in this frame. */
function passage(plan: Plan, { trailing_cm, middle_cm }: Track, frame: number): number {
  let at = frame;
  while (at + 1 < plan.count && !Number.isNaN(trailing_cm[at + 1]) && trailing_cm[at] < middle_cm[frame]) at++;
  return deliveredOf(plan, at);
}

/** Names the dashed lines once, beside the last front of the run that has room. */
function frontWish({ layout, x }: Drawing, acid: AcidGrid, until_mL: number): Worded[] {
  const { depth, narrow } = layout;
  const y = depth.top + FRONT_DEPTH * (depth.bottom - depth.top);
  const volumes = frontPassages(acid, FRONT_DEPTH).filter((mL) => mL <= until_mL);
  if (volumes.length === 0) return [];
  return [
    {
      texts: narrow ? ['acid front'] : ['acid front: 10, 50, 90 %', 'acid front'],
      places: volumes.reverse().map((mL) => ({ x: x(mL) + 12, y, anchor: 'start' as const })),
      within: insideOf(layout, depth),
      look: 'line-label',
      colour: seriesStyle('HCl').text,
    },
  ];
}

/** Without its charge: the words are about the element. */
function symbolOf(ion: Track['ion']): string {
  return IONS[ion].symbol.replace(/[⁺⁻¹²³⁴]/g, '');
}
