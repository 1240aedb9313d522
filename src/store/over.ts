import type { Plan, Results } from '../../sim/history/index.ts';
import { isEnded } from '../../sim/teach/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import type { ColumnStore } from './column-store.ts';
import type { Moment } from './threads/planner.ts';

/** Share of the sample's ions on the bed up to which nothing is left to release; a choice. */
const LEFT = 0.02;
/** The same for a run without a procedure to go by. A choice. */
const LEFT_BED = 0.5;

/** Whether the run on the page is over at the moment shown. */
export function isOver({ scenario, plan, moment, now }: ColumnStore): boolean {
  return scenario !== undefined && plan !== undefined && moment !== undefined && wasOver(scenario, plan, moment, now);
}

/** The same at the present, whichever moment is shown. */
export function isOverByNow({ scenario, plan, atPresent, present_min }: ColumnStore): boolean {
  return scenario !== undefined && plan !== undefined && atPresent !== undefined && wasOver(scenario, plan, atPresent, present_min);
}

/**
 * Whether a run was over by then: the log is done, the clamp is shut, and the task has nothing left to do, or nothing is left to release,
 * or it was said that the run ends. A clamp that was shut to think ends nothing.
 */
export function wasOver(
  scenario: Scenario,
  plan: Plan,
  { clampOpen, results, events }: Pick<Moment, 'clampOpen' | 'results' | 'events'>,
  now_min: number,
): boolean {
  if (clampOpen > 0 || now_min < plan.logEnd.time_min - 1e-9) return false;
  const left = leftShare(plan, results);
  return left !== undefined && (left <= LEFT || (isEnded(scenario, events) ?? left < LEFT_BED));
}

/** Share of what was loaded that is still on the bed; undefined before. */
function leftShare({ ions }: Plan, { loaded, onBed }: Results): number | undefined {
  const of = (amounts: typeof loaded): number => ions.reduce((sum, ion) => sum + (amounts[`${ion}_mmol`] ?? 0), 0);
  return of(loaded) > 0 ? of(onBed) / of(loaded) : undefined;
}
