// A bed that runs dry from the top: cells empty one after the other, and trap gas when liquid comes back.
import { AT, type Bed } from './bed.ts';
import type { Column } from './column.ts';
import { refresh, weighLane } from './sweep.ts';

/** Liquid that stays between the beads of a drained cell, share of the pore space (estimate). */
export const RESIDUAL = 0.1;
/** Gas trapped on refilling, share of the pore space, and its growth per further cycle (Fry et al.; Princ et al., read). */
const TRAPPED = 0.15;
const TRAPPED_PER_CYCLE = 0.03;
const TRAPPED_MAX = 0.5;
/** Relative permeability (1 - Sg)^3.5, fitted to 0.62 at 14 % and 0.05 at 55 % gas (Fry et al., read). */
const GAS_EXPONENT = 3.5;
/** Share of the liquid beside trapped gas that no longer moves (estimate). */
const STILL_SHARE = 0.3;

/** Space between the beads of a cell, mL. */
export function poreSpace(column: Column, lane: number): number {
  return column.cellVolume[lane] * column.porosity;
}

/** mL the top wet cell of a lane can still give before it counts as drained; Infinity if none is left. */
export function drainable(bed: Bed, column: Column, lane: number): number {
  const j = bed.drained[lane];
  if (j >= bed.plates) return 0;
  const at = lane * bed.plates + j;
  return bed.mobile[at] - RESIDUAL * poreSpace(column, lane) * (1 - bed.gas[at]);
}

/** Takes `volume` mL out of the top wet cell of a lane; empties it when only the residual is left. */
export function drainLane(bed: Bed, column: Column, lane: number, volume: number): void {
  const at = lane * bed.plates + bed.drained[lane];
  bed.mobile[at] -= volume;
  const space = poreSpace(column, lane);
  bed.gas[at] = 1 - (bed.mobile[at] + bed.stillVolume[at]) / space;
  if (drainable(bed, column, lane) > 1e-9 * space) return;
  if (bed.scalar[AT.dryMinutes] === 0 && bed.drained[lane] === 0) bed.scalar[AT.drainings] += 1;
  retire(bed, at);
  bed.drained[lane] += 1;
  weighLane(bed, column, lane);
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
  let filled = true;
  while (filled && bed.scalar[AT.headVolume] > 0) {
    filled = false;
    for (let i = 0; i < bed.lanes; i++) if (bed.drained[i] > 0 && fillCell(bed, column, i)) filled = true;
  }
  for (let i = 0; i < bed.lanes; i++) weighLane(bed, column, i);
}

function fillCell(bed: Bed, column: Column, lane: number): boolean {
  const j = bed.drained[lane] - 1;
  const at = lane * bed.plates + j;
  const space = poreSpace(column, lane);
  const cycles = Math.max(0, bed.scalar[AT.drainings] - 1);
  // More gas stays near the top, where the liquid arrives last (Princ et al., read: +20 %).
  const gas = Math.min(TRAPPED_MAX, (TRAPPED + TRAPPED_PER_CYCLE * cycles) * (1.2 - (0.2 * j) / bed.plates));
  const wanted = space * (1 - gas) - bed.stillVolume[at];
  if (wanted > bed.scalar[AT.headVolume]) return false;
  blend(bed, at, wanted, space * (1 - gas));
  bed.gas[at] = gas;
  bed.resistance[at] *= 1 / (1 - gas) ** GAS_EXPONENT;
  bed.drained[lane] = j;
  bed.steady[lane] = 0;
  refresh(bed, column, at, bed.pore[at]);
  return true;
}

/** Mixes `wanted` mL from above with the residual of a cell, then leaves part of it still. */
function blend(bed: Bed, at: number, wanted: number, liquid: number): void {
  const cells = bed.lanes * bed.plates;
  const head = bed.scalar[AT.headVolume];
  for (let k = 0; k < bed.components; k++) {
    const x = k * cells + at;
    const brought = (bed.head[k] * wanted) / head;
    const c = (bed.still[x] * bed.stillVolume[at] + brought) / liquid;
    bed.head[k] -= brought;
    bed.pore[x] = c;
    bed.still[x] = c;
    if (k > 0 && c > 0) {
      const w = (k - 1) * bed.lanes + Math.floor(at / bed.plates);
      bed.first[w] = Math.min(bed.first[w], at % bed.plates);
      bed.last[w] = Math.max(bed.last[w], at % bed.plates);
    }
  }
  bed.scalar[AT.headVolume] = Math.max(0, head - wanted);
  bed.stillVolume[at] = STILL_SHARE * liquid;
  bed.mobile[at] = liquid - bed.stillVolume[at];
}
