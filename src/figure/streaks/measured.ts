import { type Effluent, effluents } from '../rows/row-effluent.ts';
import type { Worked } from '../worked.ts';
import { type AcidGrid, acidGridOf } from './fronts.ts';
import { rampTops } from './streaks.ts';

/** With what takes an instrument to know: acid in the bed, what leaves, how much the bands hold at most. */
export interface Measured extends Worked {
  readonly acid: AcidGrid;
  readonly curves: readonly Effluent[];
  readonly tops: readonly number[];
  /** What it was measured of. */
  readonly of: Worked;
}

/** The same object as long as nothing of the run changes. */
export function measuredFor(old: Measured | undefined, worked: Worked): Measured {
  if (old?.of === worked) return old;
  const same = old?.plan === worked.plan && old.scenario === worked.scenario;
  return { ...worked, of: worked, acid: acidGridOf(worked), curves: effluents(worked), tops: same ? old.tops : rampTops(worked.scenario, worked.plan) };
}
