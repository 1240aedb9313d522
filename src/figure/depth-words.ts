import { nothing, svg, type SVGTemplateResult } from 'lit';
import { IONS } from '../../sim/terms/ions.ts';
import { seriesStyle } from '../plot/series.ts';
import { type Drawing, depthAtFrame } from './drawing.ts';
import { type AcidGrid, frontPassages } from './streaks/fronts.ts';
import { deliveredAtEnd, deliveredOf, type Plan, type Track } from '../../sim/history/index.ts';
import { type Box, overlap, textWidth } from './rows/labels.ts';
import { type Motion, motionsOf } from './streaks/motions.ts';

// Words beside the bands. They lie above the veil of the forecast and keep out of each other's way.

const LINE_HEIGHT = 18;
const SAID: Readonly<Record<Motion['kind'], string>> = { runs: 'runs through', crawls: 'crawls', stays: 'stays', falls: 'falls' };
/** Depth, as a share of the bed, beside which the acid front is named. */
const FRONT_DEPTH = 0.88;
/** Order in which a word tries its places, in lines from the one it wants. */
const TRIES = [0, 1, 2, -1, -2, 3] as const;

/** Words up to a delivered volume; what comes later is not told. */
export function depthWords(drawing: Drawing, tracks: readonly Track[], acid: AcidGrid, until_mL = Number.POSITIVE_INFINITY): SVGTemplateResult {
  const {
    layout: { narrow, left, depth },
    plan,
  } = drawing;
  const boxes: Box[] = narrow ? [{ left, right: left + 120, top: depth.top, bottom: depth.top + 18 }] : [];
  const words = tracks
    .flatMap((track) => motionsOf(plan, track).map((motion) => ({ track, motion })))
    .filter(({ motion }) => deliveredOf(plan, motion.frame) <= until_mL)
    .sort((a, b) => b.motion.span - a.motion.span)
    .map(({ track, motion }) => bandWord(drawing, track, motion, boxes));
  return svg`<g class="words">
    ${narrow ? svg`<text class="row-title haloed" x=${left + 4} y=${depth.top + 14}>depth in bed, cm</text>` : nothing}
    ${deliveredAtEnd(plan) > 0 ? nothing : nothingYet(drawing)}${words}${frontWord(drawing, acid, boxes, until_mL)}
  </g>`;
}

function nothingYet({ layout: { depth, left, right, narrow } }: Drawing): SVGTemplateResult {
  const said = narrow ? 'nothing has run through yet' : 'Nothing has run through yet. Pour, and open the clamp.';
  return svg`<text class="row-title" x=${(left + right) / 2} y=${(depth.top + depth.bottom) / 2} text-anchor="middle">${said}</text>`;
}

function bandWord(drawing: Drawing, track: Track, { kind, frame, ion }: Motion, boxes: Box[]): SVGTemplateResult | typeof nothing {
  const {
    layout: { narrow },
    plan,
    x,
  } = drawing;
  const said = `${symbolOf(ion)} ${narrow ? SAID[kind].split(' ')[0] : SAID[kind]}`;
  // A fast band stands steep: its word goes to the right of it. A slow one lies flat: below it.
  const fast = kind === 'runs' || kind === 'falls';
  const from = fast ? x(passage(plan, track, frame)) + 8 : x(deliveredOf(plan, frame)) - textWidth(said) / 2;
  const y = depthAtFrame(drawing, frame)(fast ? track.middle_cm[frame] : track.leading_cm[frame]) + (fast ? 4 : LINE_HEIGHT);
  return place(drawing, said, from, y, seriesStyle(ion).text, boxes);
}

/** Volume at which the trailing edge passes the depth that the middle of the band has in this frame. */
function passage(plan: Plan, { trailing_cm, middle_cm }: Track, frame: number): number {
  let at = frame;
  while (at + 1 < plan.count && !Number.isNaN(trailing_cm[at + 1]) && trailing_cm[at] < middle_cm[frame]) at++;
  return deliveredOf(plan, at);
}

/** Names the dashed lines once, beside the last front of the run that has room. */
function frontWord(drawing: Drawing, acid: AcidGrid, boxes: Box[], until_mL: number): SVGTemplateResult | typeof nothing {
  const {
    layout: { depth, narrow },
    x,
  } = drawing;
  const said = narrow ? 'acid front' : 'acid front: 10, 50, 90 %';
  for (const volume of frontPassages(acid, FRONT_DEPTH)
    .filter((mL) => mL <= until_mL)
    .reverse()) {
    const drawn = place(drawing, said, x(volume) + 12, depth.top + FRONT_DEPTH * (depth.bottom - depth.top), seriesStyle('HCl').text, boxes);
    if (drawn !== nothing) return drawn;
  }
  return nothing;
}

function place(
  { layout: { depth, left, right } }: Drawing,
  said: string,
  from: number,
  wanted: number,
  colour: string,
  boxes: Box[],
): SVGTemplateResult | typeof nothing {
  const width = textWidth(said);
  const at = Math.max(left + 6, Math.min(from, right - width - 6));
  for (const step of TRIES) {
    const y = Math.max(depth.top + LINE_HEIGHT, Math.min(depth.bottom - 6, wanted + step * LINE_HEIGHT));
    const box = { left: at, right: at + width, top: y - 13, bottom: y + 4 };
    if (boxes.some((other) => overlap(other, box))) continue;
    boxes.push(box);
    return svg`<text class="line-label" x=${at} y=${y} fill=${colour}>${said}</text>`;
  }
  return nothing;
}

/** Without its charge: the words are about the element. */
function symbolOf(ion: Track['ion']): string {
  return IONS[ion].symbol.replace(/[⁺⁻¹²³⁴]/g, '');
}
