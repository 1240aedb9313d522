import type { Claimed } from '../../../sim/handed/index.ts';
import type { ColumnStore } from '../column-store.ts';

/** Figures at the end of the run, even if the reader looks at an earlier moment; undefined while the model is computing. */
export function claimedOf({ plan, atPresent, busy, preview }: ColumnStore): Claimed | undefined {
  if (!plan || !atPresent || preview || busy) return undefined;
  const { time_min, delivered_mL, receivers } = atPresent.time_min >= plan.logEnd.time_min ? atPresent.results : plan.results;
  return { time_min, delivered_mL, receivers };
}
