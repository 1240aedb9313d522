import type { Scenario } from '../terms/types.ts';
import type { ColumnTimes } from '../class/index.ts';
import type { Plan } from '../history/index.ts';

// How long each phase of a column run took, read off the run.

/** Times for a column that was not run yet, min; estimates, no source. */
export const ASSUMED_TIMES: ColumnTimes = { condition_min: 15, load_min: 3, wash_min: 30, strip_min: 25 };

/** An eluent this much weaker than the strongest liquid takes cobalt off; a choice. */
const WEAKER = 0.5;

/** Undefined while the run lacks a phase. */
export function columnTimes(scenario: Scenario, plan: Plan): ColumnTimes | undefined {
  const pours = plan.events.flatMap(({ action, refused, time_min }) =>
    action?.do === 'pour' && !refused ? [{ time_min, liquid: scenario.liquids[action.liquid] }] : [],
  );
  const strongest = Math.max(0, ...Object.values(scenario.liquids).map(({ HCl_M }) => HCl_M));
  const isSample = (at: number): boolean => Object.values(pours[at]?.liquid?.ions ?? {}).some((molarity) => molarity > 0);
  const load = pours.findIndex((_, i) => isSample(i));
  const wash = pours.findIndex((_, i) => i > load && !isSample(i));
  const strip = pours.findIndex(({ liquid }, i) => i > load && (liquid?.HCl_M ?? strongest) < WEAKER * strongest);
  if (load < 0 || wash < 0 || strip < 0) return undefined;
  const [start, washing, stripping] = [pours[load].time_min, pours[wash].time_min, pours[strip].time_min];
  return { condition_min: start, load_min: washing - start, wash_min: stripping - washing, strip_min: plan.logEnd.time_min - stripping };
}
