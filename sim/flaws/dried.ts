import { AT, type Bed, type Column } from '../column/index.ts';
import { refill, trappedGas } from '../flow/index.ts';
import type { Fault, Issue } from '../terms/types.ts';
import { crackBed, renew, setGas } from '../packing/index.ts';

/** Minutes dry at severity 1 (range assumed). */
export const DRY_MAX_MIN = 45;
/** Gas at severity 1 over that of a first drying. */
const GAS_MAX = 1.5;

/**
 * A bed as it is after standing dry for a while and being filled again from above: gas, still liquid, cracks. Whoever imposes it
 * refuses it where the liquid that gas drives out would go over the rim (`attempt`).
 */
export function driedBed(bed: Bed, column: Column, fault: Fault): Issue | undefined {
  const severity = fault.severity ?? 1;
  const deep = Math.max(1, Math.round((fault.depth_share ?? 1) * bed.plates));
  const s = bed.scalar;
  refill(bed, column);
  const nothing = new Float64Array(bed.components);
  for (let i = 0; i < bed.lanes; i++) setGas(bed, i, (j) => gasAfter(bed, column, i, j, severity, deep), 0, nothing);
  s[AT.drainings] += 1;
  crackBed(bed, column, severity * DRY_MAX_MIN, deep);
  renew(bed, column);
  return undefined;
}

function gasAfter(bed: Bed, column: Column, lane: number, j: number, severity: number, deep: number): number {
  const had = bed.gas[lane * bed.plates + j];
  return j < deep ? Math.max(had, severity * GAS_MAX * trappedGas(bed, column, lane, j, bed.scalar[AT.drainings] + 1)) : had;
}
