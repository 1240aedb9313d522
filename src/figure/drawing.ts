import { scaleLinear } from 'd3-scale';
import type { Scenario } from '../../sim/terms/types.ts';
import type { Scale } from '../plot/axis.ts';
import { bedHeightOf, deliveredAtEnd, type Plan } from '../../sim/history/index.ts';
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
 * while a run grows.
 */
export function axisEnd(scenario: Scenario, plan: Plan): number {
  const planned = scenario.procedure.reduce((sum, action) => sum + (action.do === 'pour' ? action.volume_mL : 0), 0);
  const [, end = AXIS_MIN_ML] = scaleLinear()
    .domain([0, Math.max(AXIS_MIN_ML, planned, deliveredAtEnd(plan))])
    .nice(12)
    .domain();
  return end;
}

export function volumeScale(layout: FigureLayout, end_mL: number): Scale {
  return scaleLinear().domain([0, end_mL]).range([layout.left, layout.right]);
}

/** The ruler beside the bed, 0 where it stood when it was packed. */
export function depthScale({ scenario, layout }: Pick<Drawing, 'scenario' | 'layout'>): Scale {
  return scaleLinear().domain([0, scenario.values['bed.length_cm']]).range([layout.depth.top, layout.depth.bottom]);
}

/** Part of its length as packed that the bed has in a frame; one that has grown beyond it is drawn as long as it was. */
export function shownOf(plan: Plan, frame: number): number {
  return Math.min(1, bedHeightOf(plan, frame) / plan.length_cm);
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
