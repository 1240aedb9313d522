import { AT, type Bed } from '../column/index.ts';
import type { Issue } from '../terms/types.ts';

/** Tips a share of what is in the vessel under the tip onto the bench. */
export function spill(bed: Bed, share: number): Issue | undefined {
  if (!(share > 0 && share <= 1)) return { path: 'share', expected: 'more than 0 and at most 1', received: String(share) };
  const slot = bed.scalar[AT.receiver] * (bed.components + 1);
  if (bed.receivers[slot] <= 0) return { path: 'do', expected: 'a vessel with liquid in it', received: 'an empty one' };
  const volume = bed.receivers[slot] * share;
  bed.receivers[slot] -= volume;
  bed.scalar[AT.spilled] += volume;
  for (let k = 0; k < bed.components; k++) {
    const amount = bed.receivers[slot + 1 + k] * share;
    bed.receivers[slot + 1 + k] -= amount;
    bed.spilledAmount[k] += amount;
  }
  return undefined;
}
