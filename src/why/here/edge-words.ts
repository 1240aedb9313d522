import { bandAt, bandOnRuler, frameAt, type Plan, progressOf } from '../../../sim/history/index.ts';
import { sectionOf } from '../../../sim/terms/geometry.ts';
import type { IonId } from '../../../sim/terms/ions.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { firstVolume, isAtBottom } from '../../plot/at-bottom.ts';
import { fixed, millilitres } from '../../ui/text/format.ts';
import { percentOf } from '../sentences.ts';

// The band of a run moves at the speed of its ions; its leading edge runs ahead.

/** Over so many of the last mL speeds are read; a choice. */
const SPAN_ML = 3;
/** Steps in which the bottom is sought, mL. */
const STEP_ML = 0.2;
/** Faster than the middle by this factor the edge needs a word; a choice. */
const AHEAD = 1.3;

/** Speeds of the middle of a band and of its leading edge over that of the liquid, before a delivered volume; undefined where there was no band. */
export function speedsOf(
  { values }: Pick<Scenario, 'values'>,
  plan: Plan,
  ion: IonId,
  delivered_mL: number,
): { readonly middle: number; readonly edge: number } | undefined {
  const [from, to] = [delivered_mL - SPAN_ML, delivered_mL].map((mL) => (mL < 0 ? undefined : bandAt(plan, ion, frameAt(plan, mL))));
  if (!from || !to) return undefined;
  const liquid_cm = SPAN_ML / (sectionOf(values) * values['bed.porosity']);
  return { middle: (to.centroid_cm - from.centroid_cm) / liquid_cm, edge: (to.leading_cm - from.leading_cm) / liquid_cm };
}

/** Why the edge that one sees is faster than the band is said to be; empty where it is not. */
export function edgeSentence(scenario: Scenario, plan: Plan, ion: IonId, delivered_mL: number): string {
  const speeds = speedsOf(scenario, plan, ion, delivered_mL);
  if (!speeds || speeds.middle <= 0 || speeds.edge < AHEAD * speeds.middle || speeds.edge >= 1) return '';
  return `In this run, over the last ${millilitres(SPAN_ML)}, the middle of the band moved at ${percentOf(speeds.middle)} of the liquid's speed, its leading edge at ${percentOf(speeds.edge)}: the band widens as it goes, because exchange with the beads takes time and the paths between them differ in length.`;
}

/** Said beside a speed that holds for a trace, also where nothing of a run may be told. */
export const OF_THE_MIDDLE =
  'Speed and bed volumes are those of the middle of the band of a trace; the leading edge that one sees is ahead of it and faster, since the band widens as it goes.';

/** The same for the run up to a delivered volume: speeds while the strong acid was still there, and when the edge was at the bottom of the bed; empty where there was no band. */
export function runEdgeSentence(scenario: Scenario, plan: Plan, ion: IonId, until_mL: number): string {
  const { load_mL = 0, eluent_mL = Number.POSITIVE_INFINITY } = progressOf(scenario, plan.events);
  const last_mL = Math.min(until_mL, eluent_mL);
  const bottom_mL = firstVolume(load_mL, last_mL, STEP_ML, (mL) => isAtBottom(plan, bandOnRuler(plan, ion, frameAt(plan, mL))));
  const speeds = edgeSentence(scenario, plan, ion, bottom_mL ?? last_mL);
  if (bottom_mL === undefined || speeds === '') return speeds;
  const after_mL = bottom_mL - load_mL;
  const bedVolumes = after_mL / (sectionOf(scenario.values) * scenario.values['bed.length_cm']);
  return `${speeds} It was at the bottom ${millilitres(after_mL)}, or ${fixed(bedVolumes, 1)} bed volumes, after the sample was poured.`;
}
