import { loadPull } from '../chemistry/index.ts';
import { type Bed, type Column, empty, refresh, resistLane, widen } from '../column/index.ts';

/** Recomputes everything that is kept about every lane, after resin, liquid or gas has been moved. */
export function renew(bed: Bed, column: Column): void {
  bed.invadedAt.fill(-1);
  bed.steady.fill(0);
  for (let i = 0; i < bed.lanes; i++) {
    for (let at = i * bed.plates; at < (i + 1) * bed.plates; at++) refresh(bed, column, at, bed.pore[at]);
    windowsOf(bed, i);
    retakeLane(bed, column, i);
    resistLane(bed, column, i);
  }
}

/** First and last cell of a lane that hold any of each metal. */
function windowsOf(bed: Bed, lane: number): void {
  const cells = bed.lanes * bed.plates;
  for (let s = 0; s < bed.components - 1; s++) {
    empty(bed, s, lane);
    for (let j = 0; j < bed.plates; j++) {
      const x = (s + 1) * cells + lane * bed.plates + j;
      if (bed.pore[x] > 0 || bed.sorbed[x] > 0 || bed.still[x] > 0) widen(bed, s, lane, j, j);
    }
  }
}

/** Occupied share of the capacity, as a step leaves it. */
function retakeLane(bed: Bed, column: Column, lane: number): void {
  const cells = bed.lanes * bed.plates;
  let pull = 0;
  bed.reach[lane] = -1;
  for (let j = 0; j < bed.plates; j++) {
    const at = lane * bed.plates + j;
    let occupied = 0;
    for (let s = 0; s < bed.components - 1; s++) occupied += column.anionCharge[s] * bed.sorbed[(s + 1) * cells + at];
    const charge = column.capacity * bed.resinShare[at];
    bed.taken[at] = charge > 0 ? occupied / charge : 0;
    bed.ahead[at] = Math.max(0, 1 - bed.taken[at]);
    pull = Math.max(pull, loadPull(bed.taken[at], bed.salt[at]));
    if (bed.taken[at] > 0) bed.reach[lane] = j;
  }
  bed.pull[lane] = pull;
}
