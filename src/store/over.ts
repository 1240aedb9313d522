import type { Plan, Results } from '../../sim/history/index.ts';
import type { ColumnStore } from './column-store.ts';

/** Share of the sample's ions that must have left the bed for a shut clamp to mean the end; a choice. */
const LEFT_BED = 0.5;

/** Whether the run on the page is over at the moment shown. */
export function isOver({ plan, moment, now }: ColumnStore): boolean {
  return plan !== undefined && moment !== undefined && wasOver(plan, moment, now);
}

/** The same at the present, whichever moment is shown. */
export function isOverByNow({ plan, atPresent, present_min }: ColumnStore): boolean {
  return plan !== undefined && atPresent !== undefined && wasOver(plan, atPresent, present_min);
}

/** Whether a run was over by then: the log is done, the clamp is shut, and most of what was loaded has left the bed. */
export function wasOver(plan: Plan, { clampOpen, results }: { readonly clampOpen: number; readonly results: Results }, now_min: number): boolean {
  if (clampOpen > 0 || now_min < plan.logEnd.time_min - 1e-9) return false;
  const { loaded, onBed } = results;
  const of = (amounts: typeof loaded): number => plan.ions.reduce((sum, ion) => sum + (amounts[`${ion}_mmol`] ?? 0), 0);
  return of(loaded) > 0 && of(onBed) < (1 - LEFT_BED) * of(loaded);
}
