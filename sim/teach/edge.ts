import { type Results, type RunEvent, progressOf, targetsOf } from '../history/index.ts';
import { sectionOf } from '../terms/geometry.ts';
import type { Scenario } from '../terms/types.ts';

// How far a wash may go, by what a ruler beside the column shows.

/**
 * cm of bed below the leading edge at which a wash ends where the procedure does not say. So ended, the run meets the task on all of twelve
 * columns drawn from the shipped scenario; with 1 cm on eight of them (seeds 1 to 12, three lanes; derived: runs of the model).
 */
const STOP_CM = 1.5;

/** What is looked at of the column. */
interface Looked {
  readonly results: Results;
  readonly events: readonly RunEvent[];
  readonly delivered_mL: number;
}

/** Height (cm) above the bottom at which the leading edge should stop: the procedure's where it looks for one. */
export function stopAbove_cm({ procedure }: Scenario): number {
  const look = procedure.find((action) => action.do === 'pour' && action.unless);
  return look?.do === 'pour' && look.unless ? look.unless.above_bottom_mm / 10 : STOP_CM;
}

/**
 * Delivered volume (mL) at which the leading edge will come so near the bottom, judged from where it stands now; undefined before there
 * is a band, and where the procedure looks for itself. The depth of an edge that spreads as it moves grows about as the root of what has
 * run since the sample (within 5 % over the washes of three columns of the model; derived).
 */
export function washToByEye(scenario: Scenario, { results, events, delivered_mL }: Looked): number | undefined {
  const band = results.bands[targetsOf(scenario).target];
  const { load_mL } = progressOf(scenario, events);
  if (!band || load_mL === undefined || delivered_mL <= load_mL || scenario.procedure.some((action) => action.do === 'pour' && action.unless)) return undefined;
  const stop_cm = results.bed.volume_mL / sectionOf(scenario.values) - STOP_CM;
  const times = stop_cm / band.leading_cm;
  return stop_cm > 0 && band.leading_cm > 0 ? load_mL + (delivered_mL - load_mL) * times * times : undefined;
}
