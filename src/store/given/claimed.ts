import type { Claimed } from '../../../sim/handed/index.ts';
import type { ColumnStore } from '../column-store.ts';

/** Figures at the end of the run, even if the reader looks at an earlier moment; undefined while the model is computing. */
export function claimedOf({ plan, moment, busy, preview }: ColumnStore): Claimed | undefined {
  if (!plan || !moment || preview || busy) return undefined;
  const { time_min, delivered_mL, receivers } = moment.time_min >= plan.logEnd.time_min ? moment.results : plan.results;
  return { time_min, delivered_mL, receivers };
}
