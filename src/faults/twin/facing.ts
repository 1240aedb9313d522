import { FAULTS } from '../../../sim/faults/index.ts';
import type { Fault } from '../../../sim/terms/types.ts';

/** A slope is seen from a quarter of a turn beside its low side; from that side it looks level. */
const BESIDE_DEG = 90;

/** Side from which the newest fault that has one is seen, degrees from the front by the left; the front where none has. */
export function facing(faults: readonly Fault[]): number {
  const newest = faults.findLast(({ kind, side_deg }) => FAULTS[kind].hasSide && side_deg !== undefined);
  if (newest?.side_deg === undefined) return 0;
  return newest.kind === 'tilted-bed' ? (newest.side_deg + 360 - BESIDE_DEG) % 360 : newest.side_deg % 360;
}
