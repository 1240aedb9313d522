import type { ColumnStore } from './column-store.ts';

/** Share of the sample's ions that must have left the bed for a shut clamp to mean the end; a choice. */
const LEFT_BED = 0.5;

/** Whether the run is over: everything in the log done, the clamp shut, and most of what was loaded no longer on the bed. */
export function isOver({ plan, moment, now }: ColumnStore): boolean {
  if (!plan || !moment || moment.clampOpen > 0 || now < plan.logEnd.time_min - 1e-9) return false;
  const { loaded, onBed } = moment.results;
  const of = (amounts: typeof loaded): number => plan.ions.reduce((sum, ion) => sum + (amounts[`${ion}_mmol`] ?? 0), 0);
  return of(loaded) > 0 && of(onBed) < (1 - LEFT_BED) * of(loaded);
}
