import { AZEOTROPE_M } from '../chemistry/index.ts';
import { AT, type Bed, type Column } from '../column/index.ts';
import { drainable, drainLane } from '../flow/index.ts';

const MIN_PER_H = 60;
const MM_PER_CM = 10;

/**
 * Lets water dry off from the bed top in `time` min without liquid above: each lane's highest wet cell gives it. Metals
 * stay. HCl stays until the acid has thickened to the azeotrope; from there on, and in stronger acid, it goes off with the water, so no
 * liquid gets stronger by drying than that or than it was. What has gone off is booked as spilled.
 */
export function dryTop(bed: Bed, column: Column, time: number): void {
  const depth = (column.scenario.values['bench.evaporation_mm_h'] * time) / MIN_PER_H / MM_PER_CM;
  if (depth <= 0) return;
  for (let i = 0; i < bed.lanes; i++) {
    const lost = Math.min(depth * column.lanes.area[i], drainable(bed, i));
    if (lost <= 0) continue;
    const at = i * bed.plates + bed.drained[i];
    const left = bed.mobile[at] - lost;
    const thicker = bed.mobile[at] / left;
    const acid_M = bed.pore[at];
    for (let k = 0; k < bed.components; k++) bed.pore[k * bed.lanes * bed.plates + at] *= thicker;
    const over_M = bed.pore[at] - Math.max(acid_M, AZEOTROPE_M);
    if (over_M > 0) {
      bed.pore[at] -= over_M;
      bed.spilledAmount[0] += over_M * left;
    }
    bed.steady[i] = 0;
    bed.scalar[AT.evaporated] += lost;
    drainLane(bed, column, i, lost);
  }
}
