import { scaleLinear } from 'd3-scale';
import { area, line as pathOf } from 'd3-shape';
import { nothing, svg, type SVGTemplateResult } from 'lit';
import {
  bandAt,
  deliveredAtEnd,
  deliveredOf,
  depthOf,
  frameAtTime,
  framesApart,
  frontDepth,
  highestInBed,
  onRuler,
  type Plan,
  profileOf,
  timeOf,
  type Track,
  trackOf,
  trackOnRuler,
} from '../../../sim/history/index.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { axis, type Scale } from '../../plot/axis.ts';
import { cursor } from '../../plot/cursor.ts';
import { seriesStyle } from '../../plot/series.ts';

// The bed of the run: left, where the bands and the acid front were, against volume; right, what the bed holds now. Both
// share the depth axis, which is the ruler beside the bed: it shrinks in acid. A line marks where the chosen depth stands now.

export interface BedDrawing {
  readonly scenario: Scenario;
  readonly plan: Plan;
  readonly now_min: number;
  readonly depth_cm: number;
  /** What comes later is not told, min. */
  readonly until_min?: number;
  readonly width: number;
  readonly height: number;
}

interface Streaks {
  readonly frames: readonly number[];
  /** As the ruler reads them, here and below. */
  readonly tracks: readonly Track[];
  /** Depth at which the acid crosses half of the strongest, cm, a value a drawn frame. */
  readonly front: readonly number[];
  /** Top of the bed, cm, a value a drawn frame. */
  readonly top: readonly number[];
}

/** Frames drawn across the picture; more cannot be told apart. */
const FRAMES_DRAWN = 240;
const MARGIN = { top: 8, bottom: 46, left: 58, right: 12 } as const;
/** Share of the width that the present bed takes, and the gap before it, px. */
const NOW_SHARE = 0.3;
const GAP = 18;
const NARROW = 420;
/** Depths, as shares of the bed, at which a name is tried, and the room it takes, px. */
const NAME_DEPTHS = [0.3, 0.45, 0.6, 0.2, 0.75, 0.9] as const;
const NAME_WIDTH = 46;
const NAME_HEIGHT = 20;
/** Names in the present bed step to the right, ion by ion; shares of its width. */
const NAME_FROM = 0.1;
const NAME_SHIFT = 0.1;

const kept = new WeakMap<Plan, Streaks>();

/** The axis begins at 0, or where the bed stood highest above it. */
export function bedLayout(width: number, height: number, plan: Plan): { depth: Scale; left: number; middle: number; nowLeft: number; right: number } {
  const right = Math.max(MARGIN.left + 120, width - MARGIN.right);
  const nowWidth = (right - MARGIN.left) * (width < NARROW ? 0.36 : NOW_SHARE);
  return {
    depth: scaleLinear()
      .domain([Math.min(0, ...streaksOf(plan).top), plan.length_cm])
      .range([MARGIN.top, height - MARGIN.bottom]),
    left: MARGIN.left,
    middle: right - nowWidth - GAP,
    nowLeft: right - nowWidth,
    right,
  };
}

export function bedDrawing(drawing: BedDrawing): SVGTemplateResult {
  const { plan, width, height, depth_cm, now_min } = drawing;
  const { depth, left, middle, nowLeft, right } = bedLayout(width, height, plan);
  const x = scaleLinear()
    .domain([0, Math.max(1, deliveredAtEnd(plan))])
    .range([left, middle]);
  const frame = frameAtTime(plan, now_min);
  const [top = 0, bottom = 0] = depth.range();
  const chosen = depth(onRuler(plan, frame, depth_cm));
  return svg`
    ${streaks(drawing, x, depth)}
    <rect class="frame" x=${left} y=${top} width=${middle - left} height=${bottom - top} fill="none"></rect>
    ${axis({ scale: x, side: 'bottom', at: bottom, ticks: width < NARROW ? 2 : 4, ...(width < NARROW ? { title: 'mL' } : { title: 'delivered', unit: 'mL' }) })}
    ${axis({ scale: depth, side: 'left', at: left, ticks: 4, title: 'depth in bed', unit: 'cm' })}
    ${cursor({ at: x(deliveredOf(plan, frame)), top, bottom, label: 'now', right: middle })}
    ${present(drawing, frame, depth, nowLeft, right)}
    <line class="chosen" x1=${left} x2=${right} y1=${chosen} y2=${chosen}></line>
    ${bandNames(drawing, x, depth)}
    ${presentNames(drawing, frame, depth, nowLeft, right)}`;
}

function streaks({ plan, until_min = Number.POSITIVE_INFINITY }: BedDrawing, x: Scale, depth: Scale): SVGTemplateResult {
  const { frames: all, tracks, front, top } = streaksOf(plan);
  const frames = all.filter((frame) => timeOf(plan, frame) <= until_min);
  const at = (frame: number): number => x(deliveredOf(plan, frame));
  return svg`${tracks.map(({ ion, leading_cm, trailing_cm }) => {
    const { colour, dash } = seriesStyle(ion);
    const path =
      area<number>()
        .digits(1)
        .defined((frame) => Number.isFinite(leading_cm[frame]))
        .x(at)
        .y0((frame) => depth(trailing_cm[frame]))
        .y1((frame) => depth(leading_cm[frame]))(frames) ?? '';
    return svg`<path class="streak" d=${path} fill=${colour} stroke=${colour} stroke-dasharray=${dash || nothing}></path>`;
  })}
  ${[
    { of: 'front', depths: front },
    { of: 'bed-top', depths: top },
  ].map(
    ({ of, depths }) =>
      svg`<path class=${of} d=${
        pathOf<number>()
          .digits(1)
          .defined((_, i) => Number.isFinite(depths[i]))
          .x(at)
          .y((_, i) => depth(depths[i]))(frames) ?? ''
      }></path>`,
  )}`;
}

/** The name of each band inside it or beside it, at the first of a few depths where no other name stands. */
function bandNames({ plan, until_min = Number.POSITIVE_INFINITY }: BedDrawing, x: Scale, depth: Scale): SVGTemplateResult[] {
  const { frames: all, tracks } = streaksOf(plan);
  const frames = all.filter((frame) => timeOf(plan, frame) <= until_min);
  const [top = 0, bottom = 0] = depth.range();
  const taken: { x: number; y: number }[] = [];
  return tracks.flatMap(({ ion, leading_cm, trailing_cm }) => {
    const middles = frames
      .map((frame) => ({ x: x(deliveredOf(plan, frame)), y: depth((leading_cm[frame] + trailing_cm[frame]) / 2) }))
      .filter(({ y }) => Number.isFinite(y));
    const wanted = NAME_DEPTHS.map((share) => top + share * (bottom - top));
    const places = wanted.flatMap((y) =>
      middles.reduce<{ x: number; y: number }[]>((best, place) => (best[0] && Math.abs(best[0].y - y) <= Math.abs(place.y - y) ? best : [place]), []),
    );
    const place = places.find((each) => taken.every((other) => Math.abs(other.x - each.x) > NAME_WIDTH || Math.abs(other.y - each.y) > NAME_HEIGHT));
    if (!place) return [];
    taken.push(place);
    return [
      svg`<text class="line-label" x=${place.x} y=${place.y} fill=${seriesStyle(ion).text} text-anchor="middle" dominant-baseline="central">${seriesStyle(ion).label}</text>`,
    ];
  });
}

/** The bed now: acid as a line, bands as filled curves, each against its own highest value in the bed. */
function present({ plan, width }: BedDrawing, frame: number, depth: Scale, left: number, right: number): SVGTemplateResult {
  const [top = 0, bottom = 0] = depth.range();
  const acid = scaleLinear().domain([0, 12]).range([left, right]);
  const places = Array.from({ length: plan.plates }, (_, j) => j);
  const y = (j: number): number => depth(onRuler(plan, frame, depthOf(plan, j)));
  const bands = plan.ions.map((ion) => {
    if (!bandAt(plan, ion, frame)) return nothing;
    const profile = profileOf(plan, ion, frame);
    const most = Math.max(...profile);
    const { colour, dash } = seriesStyle(ion);
    const path =
      area<number>()
        .digits(1)
        .y(y)
        .x0(left)
        .x1((j) => left + (0.9 * (right - left) * profile[j]) / most)(places) ?? '';
    return svg`<path class="streak" d=${path} fill=${colour} stroke=${colour} stroke-dasharray=${dash || nothing}></path>`;
  });
  const profile = profileOf(plan, 'HCl', frame);
  return svg`${bands}<path class="front" d=${
    pathOf<number>()
      .digits(1)
      .x((j) => acid(profile[j]))
      .y(y)(places) ?? ''
  }></path>
    <rect class="frame" x=${left} y=${top} width=${right - left} height=${bottom - top} fill="none"></rect>
    ${axis({ scale: acid, side: 'bottom', at: bottom, ticks: 3, ...(width < NARROW ? { title: 'mol/L' } : { title: 'HCl now', unit: 'mol/L' }) })}`;
}

/** The names of the bands on the bed now, each at its highest amount. */
function presentNames({ plan }: BedDrawing, frame: number, depth: Scale, left: number, right: number): SVGTemplateResult[] {
  return plan.ions.flatMap((ion, k) => {
    if (!bandAt(plan, ion, frame)) return [];
    const profile = profileOf(plan, ion, frame);
    const peak = depth(onRuler(plan, frame, depthOf(plan, profile.indexOf(Math.max(...profile)))));
    const { label, text } = seriesStyle(ion);
    return [
      svg`<text class="line-label" x=${left + (NAME_FROM + NAME_SHIFT * k) * (right - left)} y=${peak} fill=${text} dominant-baseline="central">${label}</text>`,
    ];
  });
}

function streaksOf(plan: Plan): Streaks {
  const known = kept.get(plan);
  if (known) return known;
  const frames = framesApart(plan, deliveredAtEnd(plan) / FRAMES_DRAWN);
  const half = highestInBed(plan, 'HCl') / 2;
  const read = (of: (frame: number) => number): number[] => frames.map((frame) => onRuler(plan, frame, of(frame)));
  const tracks = plan.ions.map((ion) => trackOnRuler(plan, trackOf(plan, ion)));
  const made = { frames, tracks, front: read((frame) => frontDepth(plan, frame, half)), top: read(() => 0) };
  kept.set(plan, made);
  return made;
}
