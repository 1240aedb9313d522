import type { Bed, Column } from '../column/index.ts';
import { normalStream } from '../math/random.ts';
import type { Fault, Issue } from '../terms/types.ts';
import { renew } from '../packing/index.ts';
import { exp, power } from '../math/elementary.ts';

/** Standard deviation of ln(permeability) between lanes at severity 1 (0.35 is poor: estimate). */
export const SPREAD_MAX = 0.6;
/** Permeability of the wall sectors at severity 1 over before (2 is careless: estimate). */
const WALL_MAX = 2;
/** Air enters at this share of the suction at severity 1: one wide pore is enough (estimate). */
const ENTRY_LEAST = 0.2;

/** A bed poured in portions and never stirred: lanes differ, the wall is open, and air gets in easily. */
export function unevenPacking(bed: Bed, column: Column, fault: Fault): Issue | undefined {
  const severity = fault.severity ?? 1;
  const normal = normalStream(column.scenario.seed + 271);
  for (let i = 0; i < bed.lanes; i++) {
    const factor = exp(severity * SPREAD_MAX * normal()) * (i === 0 ? 1 : power(WALL_MAX, severity));
    for (let j = 0; j < bed.plates; j++) bed.packing[i * bed.plates + j] /= bed.lanes === 1 ? 1 : factor;
    bed.airEntry[i] *= 1 - (1 - ENTRY_LEAST) * severity;
  }
  renew(bed, column);
  return undefined;
}
