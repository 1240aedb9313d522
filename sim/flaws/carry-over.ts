import { AT, type Bed, type Column, onBed } from '../column/index.ts';
import type { Fault, Issue } from '../terms/types.ts';
import { samplesOf } from '../input/index.ts';
import { renew } from '../packing/index.ts';

/** Metals of the run before that stayed on the bed at severity 1, as a share of what one sample pour brings (assumed). */
export const LEFT_MAX = 0.2;

/** What the run before left in the lower half of the bed counts as poured. */
export function carryOver(bed: Bed, column: Column, fault: Fault): Issue | undefined {
  if (bed.scalar[AT.time] > 0) return { path: 'kind', expected: 'carry-over only before the first action', received: `${bed.scalar[AT.time].toFixed(2)} min` };
  const share = (fault.severity ?? 1) * LEFT_MAX;
  const cells = bed.lanes * bed.plates;
  for (const { liquid, volume_mL } of samplesOf(column.scenario)) {
    for (let k = 1; k < bed.components; k++) {
      const left = share * volume_mL * (column.liquids[liquid]?.[k] ?? 0);
      if (left > 0) spreadLow(bed, column, k, left, cells);
    }
  }
  renew(bed, column);
  return undefined;
}

function spreadLow(bed: Bed, column: Column, k: number, amount: number, cells: number): void {
  const had = onBed(bed, column, k);
  const volume = column.cellVolume.reduce((sum, cell) => sum + cell * Math.ceil(bed.plates / 2), 0);
  for (let at = 0; at < cells; at++) if (at % bed.plates >= Math.floor(bed.plates / 2)) bed.sorbed[k * cells + at] += amount / volume;
  bed.pouredAmount[k] += onBed(bed, column, k) - had;
}
