// A bed that runs dry from the top: cells empty one after another, and trap gas when liquid comes back.
import { AT, type Bed, type Column, refresh, resistLane, weighLane, widen } from '../column/index.ts';
import { uniform } from '../math/random.ts';

/** Liquid that stays between the beads of a drained cell, share of the space there (estimate). */
export const RESIDUAL = 0.1;
/** Gas trapped on refilling, share of the space, and its growth per further cycle (Fry et al. 1997; Princ et al. 2020, abstracts read). */
const TRAPPED = 0.15;
const TRAPPED_PER_CYCLE = 0.03;
const TRAPPED_MAX = 0.5;
/** The longer a bed stands dry, the more films of liquid break and the more gas they cut off: twice as much in the end, half of that in this time, min (estimates; up to 55 % seen, Fry et al.). */
const DRY_GAIN = 1;
const DRY_HALF_MIN = 20;
/** It comes in clusters: lanes trap between 0.3 and 2 times as much (estimate). */
const CLUSTER_LEAST = 0.3;
const CLUSTER_SPAN = 1.7;
/** Share of the liquid beside trapped gas that no longer moves (estimate). */
const STILL_SHARE = 0.3;
/** Share of a cell too small to wait for. */
const EMPTY = 1e-9;

/** mL the top wet cell of a lane can still give before it counts as drained; 0 if none is left. */
export function drainable(bed: Bed, lane: number): number {
  const j = bed.drained[lane];
  if (j >= bed.plates) return 0;
  const at = lane * bed.plates + j;
  return Math.max(0, bed.mobile[at] - RESIDUAL * bed.room[at]);
}

/** Takes `volume` mL out of the top wet cell of a lane; empties it when only the residual is left. */
export function drainLane(bed: Bed, column: Column, lane: number, volume: number): void {
  const at = lane * bed.plates + bed.drained[lane];
  bed.mobile[at] -= volume;
  bed.gas[at] = Math.max(0, 1 - (bed.mobile[at] + bed.stillVolume[at]) / bed.room[at]);
  bed.scalar[AT.uneven] = 1;
  if (drainable(bed, lane) > EMPTY * bed.room[at]) return;
  if (!isDrained(bed)) bed.scalar[AT.drainings] += 1;
  while (bed.drained[lane] < bed.plates && drainable(bed, lane) <= EMPTY * bed.room[at]) {
    retire(bed, lane * bed.plates + bed.drained[lane]);
    bed.drained[lane] += 1;
  }
  weighLane(bed, column, lane);
}

/** Whether any cell has run dry. */
export function isDrained(bed: Bed): boolean {
  for (let i = 0; i < bed.lanes; i++) if (bed.drained[i] > 0) return true;
  return false;
}

/** Moves what is left in a drained cell into liquid that does not move. */
function retire(bed: Bed, at: number): void {
  const cells = bed.lanes * bed.plates;
  const m = bed.mobile[at];
  const still = bed.stillVolume[at] + m;
  for (let k = 0; k < bed.components; k++) {
    const x = k * cells + at;
    bed.still[x] = still > 0 ? (bed.still[x] * bed.stillVolume[at] + bed.pore[x] * m) / still : 0;
    bed.pore[x] = 0;
  }
  bed.stillVolume[at] = still;
  bed.mobile[at] = 0;
}

/** Lets liquid above the bed sink into drained cells, the deepest first; leaves trapped gas and still liquid behind. */
export function refill(bed: Bed, column: Column): void {
  if (bed.scalar[AT.uneven] === 0) return;
  for (let i = 0; i < bed.lanes; i++) toppedUp(bed, column, i);
  let filled = true;
  while (filled && bed.scalar[AT.headVolume] > 0) {
    filled = false;
    for (let i = 0; i < bed.lanes; i++) if (bed.drained[i] > 0 && fillCell(bed, column, i, bed.drained[i] - 1)) filled = true;
  }
  for (let i = 0; i < bed.lanes; i++) resistLane(bed, column, i);
}

/** Gas that a cell keeps when liquid comes back, share of its space. */
export function trappedGas(bed: Bed, column: Column, lane: number, j: number, cycle: number): number {
  const cluster = CLUSTER_LEAST + CLUSTER_SPAN * uniform(column.scenario.seed + 7919 * lane).value;
  // More gas stays near the top, where the liquid arrives last (Princ et al., read: +20 %).
  const depth = 1.2 - (0.2 * j) / bed.plates;
  const stood = bed.scalar[AT.dryMinutes];
  const drier = 1 + (DRY_GAIN * stood) / (stood + DRY_HALF_MIN);
  return Math.min(TRAPPED_MAX, (TRAPPED + TRAPPED_PER_CYCLE * Math.max(0, cycle - 1)) * depth * cluster * drier);
}

/** Still liquid beside a share of gas, as a share of the liquid. */
export function stillBeside(gas: number): number {
  return STILL_SHARE * Math.min(1, gas / TRAPPED);
}

/** The cell that was running dry when the liquid came back. */
function toppedUp(bed: Bed, column: Column, lane: number): void {
  if (bed.drained[lane] < bed.plates) fillCell(bed, column, lane, bed.drained[lane]);
}

function fillCell(bed: Bed, column: Column, lane: number, j: number): boolean {
  const at = lane * bed.plates + j;
  const gas = Math.min(bed.gas[at], trappedGas(bed, column, lane, j, bed.scalar[AT.drainings]));
  const liquid = bed.room[at] * (1 - gas);
  const wanted = liquid - bed.stillVolume[at] - bed.mobile[at];
  if (wanted <= 0 || wanted > bed.scalar[AT.headVolume]) return false;
  blend(bed, at, wanted, stillBeside(gas));
  bed.gas[at] = gas;
  bed.drained[lane] = Math.min(bed.drained[lane], j);
  bed.steady[lane] = 0;
  refresh(bed, column, at, bed.pore[at]);
  return true;
}

/** Mixes `wanted` mL from above with what a cell still holds, then leaves part of it still. */
function blend(bed: Bed, at: number, wanted: number, stillShare: number): void {
  const cells = bed.lanes * bed.plates;
  const head = bed.scalar[AT.headVolume];
  const liquid = bed.mobile[at] + bed.stillVolume[at] + wanted;
  for (let k = 0; k < bed.components; k++) {
    const x = k * cells + at;
    const brought = (bed.head[k] * wanted) / head;
    const c = (bed.pore[x] * bed.mobile[at] + bed.still[x] * bed.stillVolume[at] + brought) / liquid;
    bed.head[k] = Math.max(0, bed.head[k] - brought);
    bed.pore[x] = c;
    bed.still[x] = c;
    if (k > 0 && (c > 0 || bed.sorbed[x] > 0)) widen(bed, k - 1, Math.floor(at / bed.plates), at % bed.plates, at % bed.plates);
  }
  bed.scalar[AT.headVolume] = Math.max(0, head - wanted);
  bed.stillVolume[at] = stillShare * liquid;
  bed.mobile[at] = liquid - bed.stillVolume[at];
}
