import type { Claimed } from '../../../sim/handed/index.ts';
import type { ColumnStore } from '../column-store.ts';

/** Figures of what was done to its end, even if the reader looks at an earlier moment; undefined while the model is at work. */
export function claimedOf({ plan, moment, busy, preview }: ColumnStore): Claimed | undefined {
  if (!plan || !moment || preview || busy) return undefined;
  const { time_min, delivered_mL, receivers } = moment.time_min >= plan.logEnd.time_min ? moment.results : plan.results;
  return { time_min, delivered_mL, receivers };
}
