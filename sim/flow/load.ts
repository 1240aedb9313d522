// The share of the fixed charge that the metals of a lane occupy: what it leaves for the next step, and its limit.
import { chlorideLeft, loadPull } from '../chemistry/index.ts';
import type { Bed, Column, Flux } from '../column/index.ts';

/** Free share of the capacity that counts as all of it: D then errs by less than 2e-7. */
const UNLOADED = 1 - 1e-7;
/** Change of the occupied share of a cell that is no change. */
export const SETTLED = 1e-7;

/** `chlorideLeft` of the cells of a lane at the load expected after the step; 1 where there is none. */
export function openInto(open: Float64Array, bed: Bed, lane: number, from: number): void {
  const { ahead, salt, plates } = bed;
  for (let j = from; j < plates; j++) {
    const left = ahead[lane * plates + j];
    open[j] = left > UNLOADED ? 1 : chlorideLeft(left, salt[lane * plates + j]);
  }
}

/** Occupied share after a step, its extrapolation to the end of the next, and how tightly share and uptake are tied. */
export function retake(bed: Bed, column: Column, lane: number, from: number, draining: number, flux: Flux): void {
  const { sorbed, taken, ahead, salt, plates } = bed;
  const metals = bed.components - 1;
  const cells = bed.lanes * plates;
  let to = bed.reach[lane];
  for (let s = 0; s < metals; s++) if (bed.last[s * bed.lanes + lane] > to) to = bed.last[s * bed.lanes + lane];
  let pull = 0;
  let lowest = -1;
  for (let j = from; j <= to; j++) {
    const at = lane * plates + j;
    let occupied = 0;
    for (let s = 0; s < metals; s++) occupied += column.anionCharge[s] * sorbed[(s + 1) * cells + at];
    const charge = column.capacity * bed.resinShare[at];
    let now = charge > 0 ? occupied / charge : 0;
    if (now > 1 + SETTLED && j >= bed.drained[lane]) {
      giveBack(bed, column, lane, j, now, j === draining ? flux.volume : 0);
      now = 1;
    }
    const next = 2 * now - taken[at];
    ahead[at] = next < 0 ? 1 : next < 1 ? 1 - next : 0;
    taken[at] = now;
    if (now > 0) {
      lowest = j;
      // Without co-ions the pull is 2 now/(1 - now) at most; where that is less than was found elsewhere, it need not be worked out.
      if (2 * now > pull * Math.max(1 - now, 0) || now > 0.5) pull = Math.max(pull, loadPull(now, salt[at]));
    }
  }
  bed.reach[lane] = lowest;
  bed.pull[lane] = pull;
}

/**
 * Beads hold no more than their charge. Uptake at the rate of the beginning of a step, when there was still room, can carry them
 * beyond it: the liquid of the cell, of which `drains` mL are gone, then keeps what is too much.
 */
function giveBack(bed: Bed, column: Column, lane: number, j: number, occupied: number, drains: number): void {
  const { pore, sorbed, coion, grip, mobile } = bed;
  const cells = bed.lanes * bed.plates;
  const at = lane * bed.plates + j;
  const liquid = mobile[at] - drains;
  for (let s = 0; s < bed.components - 1; s++) {
    if (column.anionCharge[s] === 0) continue;
    const k = s * cells + at;
    const fits = sorbed[cells + k] / occupied;
    pore[cells + k] += ((sorbed[cells + k] - fits) * column.cellVolume[lane]) / liquid;
    sorbed[cells + k] = fits;
    grip[k] = coion[k];
  }
}
