// One step of the acid of one lane, swept from the top down: liquid through stirred cells, exchange with the beads.
//
// Flow is taken by the trapezoidal rule. Exchange, dq/dt = kL (q* - q), is taken by the rational form of the exponential
// rule with q* linear in time: q' = E (q + (h/2) q*_old + (h/2)(1 + h) q*_new), E = 1/(1 + h + h²/2), h = kL dt.
// Both are second order, and a second-order rule changes the logarithm of a transfer function only from the third power
// of s on: mean and variance of a peak, so the plate count, are exact at any step size (derived; proved in tests).
// All weights are positive, so nothing goes negative while at most twice the liquid of a cell passes; where a step would
// take more than a cell holds (a fresh front), the weight of the old q* goes to the new one for that cell and step. Where more
// than twice the liquid of a cell passes (long steps of a band that creeps), a cell that would turn negative gives at its new
// concentration instead of the mean: what leaves one cell enters the next all the same.
import { type Bed, type Column, type Flux, refresh, weighLane } from '../column/index.ts';

/** Acid weaker than this (mol/L) is set to zero, so that a rinsed cell comes to rest; the amount goes into the next cell that is swept. */
const NO_ACID = 1e-12;
/** Amounts (mmol) and uptakes below this let products of theirs run out of the numbers of the machine; the limit for nothing is exact there. */
const LEAST = 1e-150;
/** Relative change of an acid cell below which it counts as steady. */
const STEADY = 1e-8;
/** Steps shorter than this, in exchange times of the beads or in liquid of a cell, change too little to tell rest from motion. */
const TELLING = 1e-6;
/** Relative change of an acid cell that calls for new properties; D then lags by less than 1e-5. */
const SEEN = 1e-6;

/** Acid (mol/L) against which differences of acid are judged: what 0.1 mol/L changes in water counts as much as a share of stronger acid. */
export const BESIDE_M = 0.1;

/** Moves the acid of a lane on by one step; a dry lane's top wet cell gives liquid and receives none. */
export function sweepAcid(bed: Bed, column: Column, lane: number, dry: boolean, flux: Flux): void {
  const { pore, sorbed, mobile, resinShare, seen, invaded, invadedAt, rest, dust } = bed;
  const { volume, time: dt } = flux;
  const plates = bed.plates;
  const half = volume / 2;
  const cell = column.cellVolume[lane];
  const Q = column.fixedCharge;
  const kappa2 = 4 * column.invasion * column.invasion;
  const h = dt / column.bead;
  const E = 1 / (1 + h + (h * h) / 2);
  const wOld = (E * h) / 2;
  const wNew = wOld * (1 + h);
  const perCell = 1 / cell;
  const perNew = 1 / wNew;
  const perBoth = 1 / (wOld + wNew);
  const base = lane * plates;
  const top = bed.drained[lane];
  let above = 2 * flux.inflow[0];
  const telling = h > TELLING;
  let steady = telling && half > TELLING * mobile[base + plates - 1] ? 1 : 0;
  let unrest = 0;
  let changed = false;
  for (let j = top; j < plates; j++) {
    const at = base + j;
    const c = pore[at];
    const q = sorbed[at];
    const m = mobile[at];
    const draining = dry && j === top;
    // At rest, unmixed since, and fed with what it holds: nothing to do. Most cells are, away from the fronts.
    // What enters goes on as it is, so that the slight difference is not lost in every cell.
    if (rest[at] === 1 && c === invadedAt[at] && !draining && Math.abs(above - 2 * c) <= STEADY * c) continue;
    const P = column.resinPore * resinShare[at];
    const old = c === invadedAt[at] ? invaded[at] : (P * kappa2 * c * c * 0.5) / (Q + Math.sqrt(Q * Q + kappa2 * c * c));
    const apart = Math.max(Math.abs(above - 2 * c), Math.abs(q - old));
    if (apart > unrest * (c + BESIDE_M)) unrest = apart / (c + BESIDE_M);
    const kept = c * (m - half) + (draining ? 0 : half * above) + cell * (1 - E) * q + dust[lane];
    const late = kept < 0;
    const gross = late ? kept + half * c : kept;
    const A = draining ? m - half : late ? m + volume : m + half;
    dust[lane] = 0;
    const R = gross - cell * wOld * old;
    const full = R > 0;
    const net = full ? R : gross;
    const B = cell * (full ? wNew : wOld + wNew) * P;
    // A c + B x = R with x (x + Q) = (kappa c)², solved in closed form.
    const raw =
      B > LEAST && net > LEAST ? (2 * net * (net + Q * B)) / (A * (2 * net + Q * B) + B * Math.sqrt(A * A * Q * Q + kappa2 * net * (net + Q * B))) : net / A;
    const gone = raw < NO_ACID && q < NO_ACID;
    const next = gone ? 0 : raw;
    const drawn = (net - A * raw) * perCell;
    // Rounding can turn a trace into a negative amount.
    const held = gone ? 0 : Math.max(0, E * q + (full ? wOld * old : 0) + drawn);
    if (gone) dust[lane] = A * raw + cell * (E * q + (full ? wOld * old : 0) + drawn);
    invaded[at] = gone ? 0 : drawn * (full ? perNew : perBoth);
    // For a step too short to tell, this would be the ratio of two rounding errors: compute it afresh instead.
    invadedAt[at] = telling ? next : -1;
    rest[at] = telling && Math.abs(next - c) <= STEADY * c && Math.abs(held - q) <= STEADY * q ? 1 : 0;
    if (rest[at] === 0) steady = 0;
    above = late ? 2 * next : c + next;
    pore[at] = next;
    sorbed[at] = held;
    if (Math.abs(next - seen[at]) > SEEN * next) {
      refresh(bed, column, at, next);
      changed = true;
    }
  }
  if (changed) weighLane(bed, column, lane);
  flux.outflow[0] += half * above;
  bed.steady[lane] = steady;
  bed.unrest[lane] = unrest;
}

/** Acid passing a lane in which it no longer changes. */
export function passSteadyAcid(flux: Flux): void {
  flux.outflow[0] += flux.volume * flux.inflow[0];
}

/** Whether the acid of a lane may be passed on unchanged: steady, and what enters is what it holds. */
export function acidIsSteady(bed: Bed, lane: number, flux: Flux): boolean {
  if (bed.steady[lane] === 0) return false;
  const first = bed.pore[lane * bed.plates];
  return flux.volume === 0 || Math.abs(flux.inflow[0] - first) <= STEADY * first;
}
