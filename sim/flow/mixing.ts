// Sideways exchange between lanes, and the spreading along a lane that the cells themselves do not already give.
import { AT, type Bed, type Column, type LaneEdge, widen } from '../column/index.ts';
import { nothing } from './faint.ts';
import { packingHeight } from '../terms/cells.ts';
import { beadOf } from '../terms/geometry.ts';

/** Steps that share one round of mixing: the exchange they hold back is below 1 % of a cell (see DEVELOPERS.md). */
export const MIX_EVERY = 4;
/** The same for steps that pass more than usual. */
export const MIX_PACED = 2;
/** Relative difference of acid between lanes not worth mixing; well below the ledger's tolerance. */
const UNIFORM = 1e-8;
/** Spreading below 1 % of what the cells give by themselves (H_cell v / 2) is not worth a pass. */
const SLIGHT = 0.005;

/** Mixes liquid between and along lanes for the time that is due (`AT.mixingDue`, min). */
export function mix(bed: Bed, column: Column): void {
  for (let k = 0; k < bed.components; k++) {
    if (k === 0 && acidIsUniform(bed)) continue;
    for (const edge of column.lanes.edges) exchangeLanes(bed, column, k, edge);
    for (let i = 0; i < bed.lanes; i++) spreadLane(bed, column, k, i);
  }
  exchangeStill(bed, bed.scalar[AT.mixingDue]);
}

function acidIsUniform(bed: Bed): boolean {
  const first = bed.pore[0];
  for (let i = 0; i < bed.lanes; i++) if (bed.steady[i] === 0 || Math.abs(bed.pore[i * bed.plates] - first) > UNIFORM * first) return false;
  return true;
}

/** D_T = gamma Dm + v d / Pe (Delgado 2006, recalled asymptote); backward Euler per pair, so never unstable. */
function exchangeLanes(bed: Bed, column: Column, k: number, { a, b, shape }: LaneEdge): void {
  const v = column.scenario.values;
  const speed = (bed.velocity[a] + bed.velocity[b]) / 2 / column.porosity;
  const D = v['flow.obstruction'] * column.diffusion[k] + (speed * beadOf(v)) / v['flow.Pe_transverse'];
  const G = column.porosity * D * shape * column.dz * bed.scalar[AT.mixingDue];
  const from = Math.max(firstCell(bed, k, a, b), bed.drained[a], bed.drained[b]);
  const to = k === 0 ? bed.plates - 1 : Math.max(bed.last[(k - 1) * bed.lanes + a], bed.last[(k - 1) * bed.lanes + b]);
  const base = k * bed.lanes * bed.plates;
  const { pore, mobile } = bed;
  const slight = k === 0 ? 0 : nothing(bed, column, k);
  let any = false;
  for (let j = from; j <= to; j++) {
    const x = a * bed.plates + j;
    const y = b * bed.plates + j;
    const c = pore[base + x];
    const other = pore[base + y];
    const apart = c - other;
    if (Math.abs(apart) <= UNIFORM * c + slight) continue;
    const m = mobile[x];
    const n = mobile[y];
    const moved = (G * apart) / (m * n + G * (m + n));
    pore[base + x] = c - moved * n;
    pore[base + y] = other + moved * m;
    any = true;
  }
  if (k === 0) {
    if (any) bed.steady[a] = bed.steady[b] = 0;
  } else if (to >= from) {
    widen(bed, k - 1, a, from, to);
    widen(bed, k - 1, b, from, to);
  }
}

function firstCell(bed: Bed, k: number, a: number, b: number): number {
  return k === 0 ? 0 : Math.min(bed.first[(k - 1) * bed.lanes + a], bed.first[(k - 1) * bed.lanes + b]);
}

/**
 * Spreading beyond the cells: 2 D / v = H_packing - H_cell + 2 gamma Dm / v, never below zero.
 * Backward Euler in one tridiagonal pass; it keeps the growth of the variance, 2 D t, exact.
 */
function spreadLane(bed: Bed, column: Column, k: number, lane: number): void {
  const v = column.scenario.values;
  const speed = bed.velocity[lane] / column.porosity;
  const packing = packingHeight(v['bed.bead_um'], v['bed.packing']);
  const D = v['flow.obstruction'] * column.diffusion[k] + (speed * (packing - column.dz)) / 2;
  if (D <= SLIGHT * speed * column.dz) return;
  const w = (k - 1) * bed.lanes + lane;
  const from = Math.max(bed.drained[lane], k === 0 ? 0 : bed.first[w] - 1);
  const to = k === 0 ? bed.plates - 1 : Math.min(bed.plates - 1, bed.last[w] + 1);
  if (to <= from) return;
  const G = (column.porosity * column.lanes.area[lane] * D * bed.scalar[AT.mixingDue]) / column.dz;
  solveSpread(bed, k * bed.lanes * bed.plates + lane * bed.plates, lane * bed.plates, from, to, G);
  if (k === 0) bed.steady[lane] = 0;
  else widen(bed, k - 1, lane, from, to);
}

/** Solves for the new concentrations, then moves amounts by fluxes so that nothing is lost to rounding. */
function solveSpread(bed: Bed, base: number, cell: number, from: number, to: number, G: number): void {
  const { pore, mobile, ratio, spread } = bed;
  let c = 0;
  for (let j = from; j <= to; j++) {
    const m = mobile[cell + j];
    const up = j > from ? G : 0;
    const down = j < to ? G : 0;
    const pivot = m + up + down - (j > from ? up * ratio[j - 1] : 0);
    ratio[j] = down / pivot;
    c = (m * pore[base + j] + up * c) / pivot;
    spread[j] = c;
  }
  for (let j = to - 1; j >= from; j--) spread[j] += ratio[j] * spread[j + 1];
  let carried = 0;
  for (let j = from; j <= to; j++) {
    const flow = j < to ? G * (spread[j] - spread[j + 1]) : 0;
    const c = pore[base + j] + (carried - flow) / mobile[cell + j];
    // What rounding would take below nothing stays behind.
    const out = c < 0 && j < to ? flow + c * mobile[cell + j] : flow;
    pore[base + j] = Math.max(c, 0);
    carried = out;
  }
}

/** Exchange with liquid that does not move, first order with rate `STILL_PER_MIN` (estimate, 1e-3 1/s). */
const STILL_PER_MIN = 0.06;

function exchangeStill(bed: Bed, time: number): void {
  if (bed.scalar[AT.uneven] === 0) return;
  const cells = bed.lanes * bed.plates;
  for (let at = 0; at < cells; at++) {
    const v = bed.stillVolume[at];
    const m = bed.mobile[at];
    if (v <= 0 || m <= 0) continue;
    const lane = Math.floor(at / bed.plates);
    for (let k = 0; k < bed.components; k++) {
      const x = k * cells + at;
      const moved = (STILL_PER_MIN * time * v * (bed.still[x] - bed.pore[x])) / (1 + STILL_PER_MIN * time * (1 + v / m));
      if (moved === 0) continue;
      bed.still[x] -= moved / v;
      bed.pore[x] += moved / m;
      if (k > 0) widen(bed, k - 1, lane, at % bed.plates, at % bed.plates);
      else bed.steady[lane] = 0;
    }
  }
}
