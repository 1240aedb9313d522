// One step of one lane, swept from the top down: plug of liquid through stirred cells, exchange with the beads.
//
// Flow is taken by the trapezoidal rule, exchange by backward Euler. Both leave the plate count exact at any step size:
// replacing d/dt by (2/dt)(1-z)/(1+z) changes the logarithm of the transfer function only from the third power of s on,
// so mean and variance of a peak are those of the continuous plates; the same holds for s kL/(s+kL) with backward Euler.
// Nothing can go negative while the volume passed is at most twice the liquid of a cell. (Derived; proved in tests.)
import type { Bed } from './bed.ts';
import type { Column } from './column.ts';
import { TABLE_STEPS, TABLE_TOP_M } from './uptake.ts';

/** Amounts this small (mmol/mL) are rounded to nothing, which also keeps denormal numbers out of the loops. */
const NOTHING = 1e-24;
/** Relative change of an acid cell below which it counts as steady. */
const STEADY = 1e-12;
/** Relative change of an acid cell that calls for new properties; D then lags by less than 1e-9. */
const SEEN = 1e-10;
/** Passes over the shared capacity in one cell, and the change of its occupied share that ends them. */
const PASSES = 4;
const SETTLED = 1e-8;
const INDEX_PER_ROOT = TABLE_STEPS / Math.sqrt(TABLE_TOP_M);

/** Concentrations that entered and left lanes during the step, reused between calls. */
export interface Flux {
  /** mol/L entering the lane, per component: mean over the step. */
  readonly inflow: Float64Array;
  /** mmol that left the lanes during the step, per component. */
  readonly outflow: Float64Array;
  /** Scratch per metal: concentration of the cell above before plus after the step. */
  readonly above: Float64Array;
  readonly before: Float64Array;
}

export function fluxFor(components: number): Flux {
  return {
    inflow: new Float64Array(components),
    outflow: new Float64Array(components),
    above: new Float64Array(components),
    before: new Float64Array(components),
  };
}

/** Moves `volume` mL of acid through a lane in `dt` min; a dry lane's top wet cell gives liquid and receives none. */
export function sweepAcid(bed: Bed, column: Column, lane: number, volume: number, dt: number, dry: boolean, flux: Flux): void {
  const { pore, sorbed, mobile, resinShare } = bed;
  const plates = bed.plates;
  const half = volume / 2;
  const cell = column.cellVolume[lane];
  const Q = column.fixedCharge;
  const kappa2 = 4 * column.invasion * column.invasion;
  const share = dt / (dt + column.bead[0]);
  const hold = cell * share * column.resinPore;
  const base = lane * plates;
  const top = bed.drained[lane];
  let above = 2 * flux.inflow[0];
  let steady = 1;
  for (let j = top; j < plates; j++) {
    const at = base + j;
    const c = pore[at];
    const q = sorbed[at];
    const m = mobile[at];
    const draining = dry && j === top;
    const A = draining ? m - half : m + half;
    const B = hold * resinShare[at];
    const R = c * (m - half) + (draining ? 0 : half * above) + cell * share * q;
    // A c + B x = R with x (x + Q) = (kappa c)², solved in closed form.
    const next = B > 0 && R > 0 ? (2 * R * (R + Q * B)) / (A * (2 * R + Q * B) + B * Math.sqrt(A * A * Q * Q + kappa2 * R * (R + Q * B))) : R / A;
    const taken = (1 - share) * q + (R - A * next) / cell;
    if (Math.abs(next - c) > STEADY * c || Math.abs(taken - q) > STEADY * q) steady = 0;
    above = c + next;
    pore[at] = next;
    sorbed[at] = taken;
    if (Math.abs(next - bed.seen[at]) > SEEN * next) refresh(bed, column, at, next);
  }
  flux.outflow[0] += half * above;
  bed.steady[lane] = steady;
}

/** Acid passing a lane in which it no longer changes. */
export function passSteadyAcid(bed: Bed, lane: number, volume: number, flux: Flux): void {
  flux.outflow[0] += volume * bed.pore[lane * bed.plates + bed.plates - 1];
}

/** Moves the metals through a lane whose acid has already taken the same step. */
export function sweepMetals(bed: Bed, column: Column, lane: number, volume: number, dt: number, dry: boolean, flux: Flux): void {
  const metals = bed.components - 1;
  const plates = bed.plates;
  const { above, before } = flux;
  let from = plates;
  let to = -1;
  for (let s = 0; s < metals; s++) {
    above[s] = 2 * flux.inflow[s + 1];
    const w = s * bed.lanes + lane;
    if (above[s] > 0) bed.first[w] = bed.drained[lane];
    if (bed.first[w] < from) from = bed.first[w];
    if (bed.last[w] > to) to = bed.last[w];
  }
  if (from < bed.drained[lane]) from = bed.drained[lane];
  let moving = from === bed.drained[lane];
  const film = column.film / Math.max(2, column.sherwood * Math.cbrt(bed.velocity[lane]));
  for (let j = from; j < plates && (j <= to || moving); j++) moving = sweepCell(bed, column, lane, j, volume / 2, dt, dry, film, above, before);
  // The sweep reached the outlet if the last cell it did still passed something on.
  for (let s = 0; moving && s < metals; s++) flux.outflow[s + 1] += (volume / 2) * above[s];
  windows(bed, lane);
}

/** One cell; leaves in `above` what it passed on. True while anything moves on. */
function sweepCell(bed: Bed, column: Column, lane: number, j: number, half: number, dt: number, dry: boolean, film: number, above: Float64Array, before: Float64Array): boolean {
  const metals = bed.components - 1;
  const cells = bed.lanes * bed.plates;
  const at = lane * bed.plates + j;
  const m = bed.mobile[at];
  const cell = column.cellVolume[lane];
  const draining = dry && j === bed.drained[lane];
  const grip = draining ? m - half : m + half;
  const charge = column.capacity * bed.resinShare[at];
  let taken = bed.taken[at];
  for (let pass = 0; pass < PASSES; pass++) {
    const free = taken < 1 ? 1 - taken : 0;
    let occupied = 0;
    for (let s = 0; s < metals; s++) {
      const k = (s + 1) * cells + at;
      const c = bed.pore[k];
      const q = bed.sorbed[k];
      const z = column.anionCharge[s];
      const D = bed.coion[s * cells + at] + bed.exchange[s * cells + at] * (z === 2 ? free * free : z === 1 ? free : 1);
      const share = dt / (dt + column.bead[s + 1] + film * D);
      const w = cell * share;
      const next = (c * (m - half) + (draining ? 0 : half * above[s]) + w * q) / (grip + w * D);
      before[s] = next;
      occupied += z * (q + share * (D * next - q));
    }
    const now = charge > 0 ? occupied / charge : 0;
    const change = now - taken;
    if (pass === PASSES - 1 || (change < SETTLED && change > -SETTLED)) break;
    taken = now;
  }
  return settleCell(bed, column, at, cell, dt, film, taken, above, before);
}

/** Writes what `sweepCell` found, with the occupied share it settled on. */
function settleCell(bed: Bed, column: Column, at: number, cell: number, dt: number, film: number, taken: number, above: Float64Array, before: Float64Array): boolean {
  const metals = bed.components - 1;
  const cells = bed.lanes * bed.plates;
  const free = taken < 1 ? 1 - taken : 0;
  const charge = column.capacity * bed.resinShare[at];
  let occupied = 0;
  let any = false;
  for (let s = 0; s < metals; s++) {
    const k = (s + 1) * cells + at;
    const z = column.anionCharge[s];
    const D = bed.coion[s * cells + at] + bed.exchange[s * cells + at] * (z === 2 ? free * free : z === 1 ? free : 1);
    const share = dt / (dt + column.bead[s + 1] + film * D);
    const c = bed.pore[k];
    const q = bed.sorbed[k];
    let next = before[s];
    let held = q + share * (D * next - q);
    if (next < NOTHING && held < NOTHING) {
      next = 0;
      held = 0;
    }
    bed.pore[k] = next;
    bed.sorbed[k] = held;
    above[s] = c + next;
    if (above[s] > 0) any = true;
    occupied += z * held;
  }
  bed.taken[at] = charge > 0 ? occupied / charge : 0;
  return any;
}

/** Narrows, per metal, the stretch of cells that can hold any of it. */
function windows(bed: Bed, lane: number): void {
  const cells = bed.lanes * bed.plates;
  for (let s = 0; s < bed.components - 1; s++) {
    const w = s * bed.lanes + lane;
    const base = (s + 1) * cells + lane * bed.plates;
    let first = bed.first[w];
    let last = bed.last[w];
    while (last + 1 < bed.plates && bed.pore[base + last + 1] + bed.sorbed[base + last + 1] > 0) last++;
    while (first < bed.plates && bed.pore[base + first] + bed.sorbed[base + first] === 0) first++;
    while (last >= first && bed.pore[base + last] + bed.sorbed[base + last] === 0) last--;
    bed.first[w] = first;
    bed.last[w] = last;
  }
}

/** Recomputes what depends on the acid of a cell: distribution coefficients, density, viscosity. */
export function refresh(bed: Bed, column: Column, at: number, acid: number): void {
  const cells = bed.lanes * bed.plates;
  const x = Math.min(Math.sqrt(acid) * INDEX_PER_ROOT, TABLE_STEPS - 1e-9);
  const i = Math.floor(x);
  const t = x - i;
  const resin = bed.resinShare[at];
  for (let s = 0; s < bed.components - 1; s++) {
    const { coion, exchange } = column.tables[s];
    bed.coion[s * cells + at] = resin * (coion[i] + t * (coion[i + 1] - coion[i]));
    bed.exchange[s * cells + at] = resin * (exchange[i] + t * (exchange[i + 1] - exchange[i]));
  }
  const { density, viscosity } = column.liquid;
  bed.density[at] = density[i] + t * (density[i + 1] - density[i]);
  bed.viscosity[at] = (viscosity[i] + t * (viscosity[i + 1] - viscosity[i])) * column.viscosityFactor;
  bed.seen[at] = acid;
}

/** Sums a lane's weight and drag over its wet cells, g/cm² and (g/cm²)/(cm/min). */
export function weighLane(bed: Bed, column: Column, lane: number): void {
  const base = lane * bed.plates;
  let weight = 0;
  let drag = 0;
  for (let j = bed.drained[lane]; j < bed.plates; j++) {
    weight += bed.density[base + j];
    drag += bed.viscosity[base + j] * bed.resistance[base + j];
  }
  bed.weight[lane] = weight * column.dz;
  bed.drag[lane] = (drag * column.dz * column.dragPerCm) / column.lanes.permeability[lane];
}

/** Whether the acid of a lane may be passed on unchanged: steady, and what enters is what it holds. */
export function acidIsSteady(bed: Bed, lane: number, flux: Flux, volume: number): boolean {
  if (bed.steady[lane] === 0) return false;
  const first = bed.pore[lane * bed.plates];
  return volume === 0 || Math.abs(flux.inflow[0] - first) <= STEADY * first;
}
