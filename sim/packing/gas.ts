import { AT, type Bed, type Column, resistLane, widen } from '../column/index.ts';
import { stillBeside } from '../flow/index.ts';

// Gas between the beads: driven in or out by liquid that rises through the bed, or dissolved by liquid that passes.

/** mL of gas that 1 mL of half-saturated water takes up (air 19 mL/L at 20 °C, recalled; half of it free). */
const DISSOLVED_PER_ML = 0.009;
/** Gas below this share of a cell counts as no gas. */
const NO_GAS = 1e-6;

/**
 * Sets the gas of a wet lane's cells. What the gas makes room for, or takes the place of, rises: from `below` into the
 * lowest cell, from cell to cell, and out at the top into the liquid above. Returns mL drawn from below.
 */
export function setGas(bed: Bed, lane: number, gasOf: (j: number) => number, extra: number, below: Float64Array): number {
  const { plates, components, lanes } = bed;
  const count = lanes * plates;
  const rise = risesOf(bed, lane, gasOf, extra);
  for (let j = plates - 1; j >= 0; j--) {
    const at = lane * plates + j;
    const [enters, leaves] = [rise[j + 1], rise[j]];
    const held = bed.mobile[at] + bed.stillVolume[at];
    const whole = held + enters;
    for (let k = 0; k < components; k++) {
      const x = k * count + at;
      const source = j === plates - 1 ? below[k] : bed.pore[x + 1];
      const c = (bed.pore[x] * bed.mobile[at] + bed.still[x] * bed.stillVolume[at] + source * enters) / whole;
      bed.pore[x] = c;
      bed.still[x] = c;
      if (j === 0) bed.head[k] += c * leaves;
    }
    const liquid = whole - leaves;
    bed.gas[at] = Math.max(0, 1 - liquid / bed.room[at]);
    bed.stillVolume[at] = bed.gas[at] > NO_GAS ? stillBeside(bed.gas[at]) * liquid : 0;
    bed.mobile[at] = liquid - bed.stillVolume[at];
  }
  bed.drained[lane] = 0;
  bed.scalar[AT.headVolume] += rise[0];
  bed.scalar[AT.uneven] = 1;
  return rise[plates];
}

/** mL that rise into cell j - 1 from cell j; the last is what enters from below. Gas driven in pushes liquid up. */
function risesOf(bed: Bed, lane: number, gasOf: (j: number) => number, extra: number): Float64Array {
  const gain = Float64Array.from({ length: bed.plates }, (_, j) => {
    const at = lane * bed.plates + j;
    return bed.room[at] * (1 - gasOf(j)) - bed.mobile[at] - bed.stillVolume[at];
  });
  const rise = new Float64Array(bed.plates + 1);
  rise[bed.plates] =
    Math.max(
      0,
      gain.reduce((sum, volume) => sum + Math.max(0, volume), 0),
    ) + extra;
  // What enters below is all that the cells gain and more: what is left over rises, and less than none is rounding.
  for (let j = bed.plates - 1; j >= 0; j--) rise[j] = Math.max(0, rise[j + 1] - gain[j]);
  return rise;
}

/** Lets liquid that passed in `time` min take up gas, the highest first; liquid from above takes its place. */
export function dissolveGas(bed: Bed, column: Column, time: number): void {
  const s = bed.scalar;
  for (let i = 0; i < bed.lanes; i++) {
    if (bed.drained[i] > 0 || bed.velocity[i] <= 0 || highestGas(bed, i) < 0) continue;
    let left = DISSOLVED_PER_ML * bed.velocity[i] * column.lanes.area[i] * time;
    for (let j = highestGas(bed, i); j >= 0 && left > 0 && s[AT.headVolume] > 0; j = highestGas(bed, i)) {
      const taken = Math.min(left, bed.gas[i * bed.plates + j] * bed.room[i * bed.plates + j], s[AT.headVolume]);
      letIn(bed, i, j, taken);
      left -= taken;
    }
    resistLane(bed, column, i);
  }
}

function highestGas(bed: Bed, lane: number): number {
  for (let j = 0; j < bed.plates; j++) if (bed.gas[lane * bed.plates + j] > NO_GAS) return j;
  return -1;
}

/** Passes `volume` mL from above down to cell j and keeps it there. */
function letIn(bed: Bed, lane: number, j: number, volume: number): void {
  const s = bed.scalar;
  const count = bed.lanes * bed.plates;
  for (let k = 0; k < bed.components; k++) {
    let amount = (bed.head[k] * volume) / s[AT.headVolume];
    bed.head[k] = Math.max(0, bed.head[k] - amount);
    for (let i = 0; i <= j; i++) {
      const at = lane * bed.plates + i;
      const x = k * count + at;
      const c = (bed.pore[x] * bed.mobile[at] + amount) / (bed.mobile[at] + volume);
      amount = i < j ? c * volume : 0;
      bed.pore[x] = c;
      if (k > 0 && c > 0) widen(bed, k - 1, lane, i, i);
    }
  }
  const at = lane * bed.plates + j;
  bed.mobile[at] += volume;
  const gas = 1 - (bed.mobile[at] + bed.stillVolume[at]) / bed.room[at];
  bed.gas[at] = gas > NO_GAS ? gas : 0;
  s[AT.headVolume] = Math.max(0, s[AT.headVolume] - volume);
  bed.steady[lane] = 0;
  freeStill(bed, at);
}

/** Once the gas has gone from a cell its liquid moves again. */
function freeStill(bed: Bed, at: number): void {
  if (bed.gas[at] > NO_GAS || bed.stillVolume[at] === 0) return;
  const count = bed.lanes * bed.plates;
  const liquid = bed.mobile[at] + bed.stillVolume[at];
  for (let k = 0; k < bed.components; k++) {
    const x = k * count + at;
    bed.pore[x] = (bed.pore[x] * bed.mobile[at] + bed.still[x] * bed.stillVolume[at]) / liquid;
    bed.still[x] = 0;
  }
  bed.mobile[at] = liquid;
  bed.stillVolume[at] = 0;
}
