// Beads shrink in acid and swell in water, and the bed with them. A cell keeps its beads: it becomes shorter, and what it no longer
// has room for rises past the sinking beads, from cell to cell and out at the top; when it swells liquid follows from above.
// Water that the beads themselves give up or take in is left out: it is a few hundredths of the liquid that passes.
import { AT, type Bed, type Column, resistLane, swollen, weighLane, widen } from '../column/index.ts';

/** Change of length, over the nominal one, that is not worth moving liquid for. */
const SLIGHT = 1e-6;
/** Share of its liquid that may leave a cell in one turn: more than all of it would leave less than nothing. */
const TURN = 0.5;
/** Turns of a lane; one that asks for more waits. A bed that stood dry and swells at once takes a few. */
const TURNS_MAX = 1000;

/** Brings every lane whose acid moves to the length that its acid asks for. */
export function swell(bed: Bed, column: Column): void {
  for (let i = 0; i < bed.lanes; i++) {
    if (bed.steady[i] === 1 || bed.drained[i] > 0) continue;
    if (!swellLane(bed, i)) continue;
    if (i > 0) resistLane(bed, column, i);
    else weighLane(bed, column, i);
  }
}

function swellLane(bed: Bed, lane: number): boolean {
  const { growth, gain, rise, plates } = bed;
  const base = lane * plates;
  let most = 0;
  rise[plates] = 0;
  for (let j = plates - 1; j >= 0; j--) {
    const at = base + j;
    growth[j] = swollen(bed.scalar[AT.shrinkage], bed.pore[at]) / bed.swollen[at];
    most = Math.max(most, Math.abs(growth[j] - 1));
    gain[j] = (growth[j] - 1) * bed.room[at] * (1 - bed.gas[at]);
    rise[j] = rise[j + 1] - gain[j];
  }
  // Liquid that is drawn in from above has to be there.
  if (most < SLIGHT || -rise[0] > bed.scalar[AT.headVolume] / 2) return false;
  const turns = turnsOf(bed, base);
  if (!(turns <= TURNS_MAX)) return false;
  for (let j = 0; j <= plates; j++) rise[j] /= turns;
  for (let j = 0; j < plates; j++) gain[j] /= turns;
  for (let turn = 0; turn < turns; turn++) {
    for (let k = 0; k < bed.components; k++) moveLiquid(bed, lane, k);
    for (let j = 0; j < plates; j++) bed.mobile[base + j] += gain[j];
    bed.scalar[AT.headVolume] += rise[0];
  }
  for (let at = base; at < base + plates; at++) {
    bed.room[at] *= growth[at - base];
    bed.height[at] *= growth[at - base];
    bed.swollen[at] *= growth[at - base];
  }
  return true;
}

/** In how many turns the liquid has to move so that no cell gives more than a share of what it holds before and after. */
function turnsOf({ mobile, gain, rise, plates }: Bed, base: number): number {
  let most = 0;
  for (let j = 0; j < plates; j++) {
    const leaves = Math.max(0, rise[j]) + Math.max(0, -rise[j + 1]);
    const holds = mobile[base + j] + Math.min(0, gain[j]);
    if (leaves > 0) most = Math.max(most, holds > 0 ? leaves / holds : Number.POSITIVE_INFINITY);
  }
  return Math.max(1, Math.ceil(most / TURN));
}

/** One component with the liquid that rises (or sinks) between cells in one turn; compositions of before are carried. */
function moveLiquid(bed: Bed, lane: number, k: number): void {
  const { pore, mobile, gain, rise, plates } = bed;
  const base = lane * plates;
  const from = k * bed.lanes * plates + base;
  const above = bed.scalar[AT.headVolume] > 0 ? bed.head[k] / bed.scalar[AT.headVolume] : 0;
  let carried = (rise[0] > 0 ? pore[from] : above) * rise[0];
  bed.head[k] += carried;
  for (let j = 0; j < plates; j++) {
    const here = pore[from + j];
    const below = rise[j + 1] > 0 ? pore[from + j + 1] : here;
    const enters = rise[j + 1] * below;
    pore[from + j] = (here * mobile[base + j] + enters - carried) / (mobile[base + j] + gain[j]);
    if (k > 0 && enters !== carried) widen(bed, k - 1, lane, j, j);
    carried = enters;
  }
}
