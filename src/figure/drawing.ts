import { scaleLinear } from 'd3-scale';
import type { Scenario } from '../../sim/terms/types.ts';
import type { Scale } from '../plot/axis.ts';
import { bedHeightOf, deliveredAtEnd, type Plan } from '../../sim/history/index.ts';
import { checklistOf } from '../../sim/teach/index.ts';
import type { FigureLayout } from './layout.ts';

/** What every row is drawn from. */
export interface Drawing {
  readonly scenario: Scenario;
  readonly plan: Plan;
  readonly layout: FigureLayout;
  /** Delivered volume, mL, to px. */
  readonly x: Scale;
}

/** Shortest axis, mL. */
const AXIS_MIN_ML = 5;

/**
 * End of the volume axis, mL: the run or the scenario's own procedure, whichever is longer, so that the axis stands still
 * while a run grows. With a moment, mL, only to the end of the aliquot in hand: a whole day would leave no room to judge one.
 */
export function axisEnd(scenario: Scenario, plan: Plan, now_mL?: number): number {
  const aliquots = aliquotEnds(scenario);
  const planned = aliquots.find((end) => end >= (now_mL ?? Number.POSITIVE_INFINITY)) ?? aliquots.at(-1) ?? 0;
  const [, end = AXIS_MIN_ML] = scaleLinear()
    .domain([0, Math.max(AXIS_MIN_ML, planned, deliveredAtEnd(plan))])
    .nice(12)
    .domain();
  return end;
}

const ends = new WeakMap<Scenario, readonly number[]>();

/** Volume poured by the end of each aliquot of the procedure, mL. Asked for each picture of a run: a procedure is looked through once. */
function aliquotEnds(scenario: Scenario): readonly number[] {
  const known = ends.get(scenario);
  if (known) return known;
  let sum = 0;
  const found = checklistOf(scenario, []).flatMap(({ planned_mL }, i, steps) => {
    sum += planned_mL;
    return i + 1 === steps.length || steps[i + 1].role === 'condition' ? [sum] : [];
  });
  ends.set(scenario, found);
  return found;
}

export function volumeScale(layout: FigureLayout, end_mL: number): Scale {
  return scaleLinear().domain([0, end_mL]).range([layout.left, layout.right]);
}

/** The ruler beside the bed, 0 at the length that the bed is meant to have. */
export function depthScale({ scenario, plan, layout }: Pick<Drawing, 'scenario' | 'plan' | 'layout'>): Scale {
  return scaleLinear()
    .domain([0, scenario.values['bed.length_cm']])
    .range([nominalTop({ plan, layout }), layout.depth.bottom]);
}

/** px at which the top of a bed of the nominal length stands: that of the row, or lower where the bed was packed higher. */
export function nominalTop({ plan, layout: { depth } }: Pick<Drawing, 'plan' | 'layout'>): number {
  return depth.bottom - (depth.bottom - depth.top) / tallestOf(plan);
}

/** Share of the row of the bed that the bed takes up in a frame; it is full where it stands highest, or at the nominal length. */
export function shownOf(plan: Plan, frame: number): number {
  return Math.min(1, bedHeightOf(plan, frame) / (plan.length_cm * tallestOf(plan)));
}

const tallest = new WeakMap<Plan, number>();
/** Less above the nominal length, as a share of it, is not seen. */
const SEEN = 1e-3;

/** Greatest height of the bed in the run over its nominal length, at least 1. */
function tallestOf(plan: Plan): number {
  const known = tallest.get(plan);
  if (known !== undefined) return known;
  let most = 1 + SEEN;
  for (let frame = 0; frame < plan.count; frame++) most = Math.max(most, bedHeightOf(plan, frame) / plan.length_cm);
  const ratio = most > 1 + SEEN ? most : 1;
  tallest.set(plan, ratio);
  return ratio;
}

/** Depth in the bed, cm, to px at a frame: the bed stands on its support, so its top sinks as it shrinks. */
export function depthAtFrame(drawing: Pick<Drawing, 'plan' | 'layout'>, frame: number): (depth_cm: number) => number {
  const { plan, layout } = drawing;
  const { top, bottom } = layout.depth;
  const px = ((bottom - top) * shownOf(plan, frame)) / plan.length_cm;
  return (depth_cm) => bottom - (plan.length_cm - depth_cm) * px;
}

/** Highest molarity of acid on the bench and in the bed at the start, mol/L. */
export function strongestAcid({ liquids, values }: Scenario): number {
  return Math.max(values['bench.start_HCl_M'], ...Object.values(liquids).map(({ HCl_M }) => HCl_M)) || 1;
}

/** Highest molarity of a metal on the bench, mol/L. */
export function strongestMetal({ liquids }: Scenario): number {
  return Math.max(0, ...Object.values(liquids).flatMap(({ ions }) => Object.values(ions))) || 1;
}
