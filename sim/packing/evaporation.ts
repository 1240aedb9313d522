import { AT, type Bed, type Column } from '../column/index.ts';
import { drainable, drainLane } from '../flow/index.ts';

const MIN_PER_H = 60;
const MM_PER_CM = 10;

/** Lets water dry off from the bed top in `time` min without liquid above: each lane's highest wet cell gives it, what is dissolved stays. */
export function dryTop(bed: Bed, column: Column, time: number): void {
  const depth = (column.scenario.values['bench.evaporation_mm_h'] * time) / MIN_PER_H / MM_PER_CM;
  if (depth <= 0) return;
  for (let i = 0; i < bed.lanes; i++) {
    const lost = Math.min(depth * column.lanes.area[i], drainable(bed, i));
    if (lost <= 0) continue;
    const at = i * bed.plates + bed.drained[i];
    const thicker = bed.mobile[at] / (bed.mobile[at] - lost);
    for (let k = 0; k < bed.components; k++) bed.pore[k * bed.lanes * bed.plates + at] *= thicker;
    bed.steady[i] = 0;
    bed.scalar[AT.evaporated] += lost;
    drainLane(bed, column, i, lost);
  }
}
