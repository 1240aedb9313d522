// One step of the metals of one lane, after its acid: the same rules as in `sweep-acid.ts`, with a capacity that they share.
import { chlorideLeft, loadPull } from '../chemistry/index.ts';
import type { Bed, Column, Flux } from '../column/index.ts';
import { cbrt } from '../math/elementary.ts';

/**
 * Cells with less than this (mmol/mL) count as empty: a billionth of what was poured, spread over the bed, or what keeps denormal
 * numbers out of the loops. What they held waits in `dust` for the first cell of the next sweep, so that nothing is lost.
 */
export function nothing(bed: Bed, column: Column, component: number): number {
  return Math.max(LEAST, (FAINT * bed.pouredAmount[component]) / (column.section * column.length));
}

const LEAST = 1e-15;
const FAINT = 1e-9;
/** Free share of the capacity that counts as all of it: D then errs by less than 2e-7. */
const UNLOADED = 1 - 1e-7;
/** Passes over the shared capacity in one cell, and the change of its occupied share that ends them. */
const PASSES = 30;
const SETTLED = 1e-7;
/** Gain of the loop occupied share -> D -> occupied share below which metals need not be solved together. */
const LOOSE = 0.25;

/** Share of all that was poured of a metal: a cell that holds more sets the pace as if it held this. */
export const MUCH = 1e-3;

/** Moves the metals through a lane whose acid has already taken the same step. */
export function sweepMetals(bed: Bed, column: Column, lane: number, dry: boolean, flux: Flux): void {
  const metals = bed.components - 1;
  const top = bed.drained[lane];
  let from = bed.plates;
  let to = -1;
  for (let s = 0; s < metals; s++) {
    const w = s * bed.lanes + lane;
    flux.above[s] = 2 * flux.inflow[s + 1];
    if (flux.above[s] > 0) bed.first[w] = top;
    if (bed.first[w] < from) from = bed.first[w];
    if (bed.last[w] > to) to = bed.last[w];
  }
  bed.haste[lane] = 0;
  if (from >= bed.plates) return;
  flux.film = column.film / Math.max(2, column.sherwood * cbrt(bed.velocity[lane]));
  const draining = dry ? top : -1;
  if (bed.pull[lane] * Math.min(1, flux.time / column.beadLeast) < LOOSE) {
    openInto(flux.open, bed, lane, from);
    for (let s = 0; s < metals; s++) sweepIon(bed, column, lane, s, draining, flux);
  } else {
    bed.haste[lane] = 1;
    const moving = sweepCells(bed, column, lane, Math.max(from, top), to, draining, flux);
    // The sweep reached the outlet if the last cell it did still passed something on.
    for (let s = 0; moving && s < metals; s++) flux.outflow[s + 1] += (flux.volume / 2) * flux.above[s];
  }
  retake(bed, column, lane, from, draining, flux);
}

/**
 * One metal through a lane, with the occupied share extrapolated from the last two steps: second order, and stable while
 * the loop share -> D -> share is loose.
 */
function sweepIon(bed: Bed, column: Column, lane: number, s: number, draining: number, flux: Flux): void {
  const { pore, sorbed, coion, exchange, bead, grip, mobile, plates, dust } = bed;
  const { open, time: dt, film } = flux;
  const half = flux.volume / 2;
  const w = s * bed.lanes + lane;
  const speck = (s + 1) * bed.lanes + lane;
  const first = Math.max(bed.first[w], bed.drained[lane]);
  const last = bed.last[w];
  const z = column.anionCharge[s];
  const cell = column.cellVolume[lane];
  const lag = dt / 2;
  const square = (dt * dt) / 2;
  const cells = bed.lanes * plates;
  let above = flux.above[s];
  let least = plates;
  let most = -1;
  let rounded = 0;
  let waiting = dust[speck];
  const poured = bed.pouredAmount[s + 1];
  const much = MUCH * poured;
  const empty = nothing(bed, column, s + 1);
  let haste = bed.haste[lane];
  for (let j = first; j < plates && (j <= last || above > 0); j++) {
    const at = lane * plates + j;
    const k = s * cells + at;
    const c = pore[cells + k];
    const q = sorbed[cells + k];
    const m = mobile[at];
    const free = open[j];
    const d = z === 0 ? coion[k] : coion[k] + exchange[k] * (z === 2 ? free * free : free);
    const S = bead[k] + film * d;
    const slow = S * S;
    const T = slow + S * dt + square;
    const drains = j === draining;
    const share = drains ? 0 : T * half;
    const own = T * (c * (m - half) + waiting) + cell * (T - slow) * q;
    const old = lag * S * grip[k] * c;
    waiting = 0;
    // What came from above is needed last, so everything else is worked out before it.
    const room = drains ? m - half : m + half;
    const wNew = lag * (S + dt) * d;
    const X = room * T + cell * wNew;
    const inverse = 1 / (X * T);
    const byT = inverse * T;
    const gross = own + share * above;
    let next = (gross - cell * old) * byT;
    let held = (slow * q + old + wNew * next) * (inverse * X);
    let late = false;
    if (!(gross > cell * old)) {
      late = gross < 0;
      const given = late ? gross + T * c * half : gross;
      const wBoth = lag * (S + dt + S) * d;
      const wide = (late ? m + 2 * half : room) * T + cell * wBoth;
      next = given / wide;
      held = (slow * q + wBoth * next) / T;
    }
    grip[k] = d;
    if (next < empty && held < empty) {
      pore[cells + k] = 0;
      sorbed[cells + k] = 0;
      rounded += next * (late ? m + 2 * half : room) + held * cell;
      above = late ? 0 : c;
    } else {
      pore[cells + k] = next;
      sorbed[cells + k] = held;
      above = late ? 2 * next : c + next;
      // Amount times (1/(1 + k))², as a share of what was poured.
      const amount = Math.min(next * m + held * cell, much) * m * m;
      const slowed = (m + cell * d) * (m + cell * d) * poured;
      if (amount > haste * slowed) haste = amount / slowed;
      if (j < least) least = j;
      most = j;
    }
  }
  dust[speck] = waiting + rounded;
  bed.haste[lane] = haste;
  bed.first[w] = least;
  bed.last[w] = most;
  // The sweep reached the outlet if the last cell held some before or after it.
  if (most === plates - 1 || last === plates - 1) flux.outflow[s + 1] += half * above;
}

/** `chlorideLeft` of the cells of a lane at the load expected after the step; 1 where there is none. */
function openInto(open: Float64Array, bed: Bed, lane: number, from: number): void {
  const { ahead, salt, plates } = bed;
  for (let j = from; j < plates; j++) {
    const left = ahead[lane * plates + j];
    open[j] = left > UNLOADED ? 1 : chlorideLeft(left, salt[lane * plates + j]);
  }
}

/** Occupied share after a step, its extrapolation to the end of the next, and how tightly share and uptake are tied. */
function retake(bed: Bed, column: Column, lane: number, from: number, draining: number, flux: Flux): void {
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

/** The hot loop, long because calls and repeated look-ups in it would cost more than the arithmetic. */
function sweepCells(bed: Bed, column: Column, lane: number, from: number, to: number, draining: number, flux: Flux): boolean {
  const { pore, sorbed, coion, exchange, bead, grip, taken, salt, mobile, resinShare, plates, dust } = bed;
  const { anionCharge, capacity } = column;
  const { above, liquid, beads, D, empty, late, time: dt, film } = flux;
  const half = flux.volume / 2;
  const metals = bed.components - 1;
  const cells = bed.lanes * plates;
  const cell = column.cellVolume[lane];
  for (let s = 0; s < metals; s++) empty[s] = nothing(bed, column, s + 1);
  let moving = true;
  for (let j = from; j < plates && (j <= to || moving); j++) {
    const at = lane * plates + j;
    const m = mobile[at];
    const room = j === draining ? m - half : m + half;
    const inflow = j === draining ? 0 : half;
    const charge = capacity * resinShare[at];
    let share = taken[at];
    let low = 0;
    let high = 1;
    let lastShare = 0;
    let lastExcess = 0;
    for (let pass = 1; ; pass++) {
      const free = share < 1 ? chlorideLeft(1 - share, salt[at]) : 0;
      let occupied = 0;
      for (let s = 0; s < metals; s++) {
        const k = s * cells + at;
        const c = pore[cells + k];
        const q = sorbed[cells + k];
        late[s] = 0;
        if (c === 0 && q === 0 && above[s] === 0) {
          liquid[s] = 0;
          beads[s] = 0;
          D[s] = 0;
          continue;
        }
        const z = anionCharge[s];
        const d = z === 0 ? coion[k] : coion[k] + exchange[k] * (z === 2 ? free * free : free);
        const S = bead[k] + film * d;
        const T = S * S + S * dt + (dt * dt) / 2;
        const gross = T * (c * (m - half) + inflow * above[s] + dust[(s + 1) * bed.lanes + lane]) + cell * (T - S * S) * q;
        const old = (dt / 2) * S * grip[k] * c;
        const full = gross > cell * old;
        const kept = full ? old : 0;
        const wNew = (dt / 2) * (full ? S + dt : S + dt + S);
        if (gross < 0) late[s] = 1;
        const next = gross < 0 ? (gross + T * c * half) / ((m + 2 * half) * T + cell * wNew * d) : (gross - cell * kept) / (room * T + cell * wNew * d);
        const held = (S * S * q + kept + wNew * d * next) / T;
        liquid[s] = next;
        beads[s] = held;
        D[s] = d;
        occupied += z * held;
      }
      // Uptake falls as the occupied share grows, so the excess of one over the other has one zero: secant in a bracket.
      const excess = (charge > 0 ? occupied / charge : 0) - share;
      if (pass === PASSES || (excess < SETTLED && excess > -SETTLED)) break;
      if (excess > 0) low = share;
      else high = share;
      const slope = pass === 1 ? -1 : (excess - lastExcess) / (share - lastShare);
      const guess = share - excess / slope;
      lastShare = share;
      lastExcess = excess;
      share = guess > low && guess < high ? guess : (low + high) / 2;
    }
    moving = false;
    for (let s = 0; s < metals; s++) {
      const k = s * cells + at;
      const gone = liquid[s] < empty[s] && beads[s] < empty[s];
      const swept = above[s] > 0 || liquid[s] !== 0 || beads[s] !== 0;
      if (swept) dust[(s + 1) * bed.lanes + lane] = gone ? liquid[s] * (late[s] === 1 ? m + 2 * half : room) + beads[s] * cell : 0;
      if (late[s] === 1) above[s] = gone ? 0 : 2 * liquid[s];
      else above[s] = gone ? pore[cells + k] : pore[cells + k] + liquid[s];
      pore[cells + k] = gone ? 0 : liquid[s];
      sorbed[cells + k] = gone ? 0 : beads[s];
      grip[k] = D[s];
      if (above[s] > 0) moving = true;
    }
  }
  windows(bed, lane);
  return moving;
}

/** Narrows, per metal, the stretch of cells that can hold any of it. */
function windows(bed: Bed, lane: number): void {
  const { pore, sorbed, plates } = bed;
  const cells = bed.lanes * plates;
  for (let s = 0; s < bed.components - 1; s++) {
    const w = s * bed.lanes + lane;
    const base = (s + 1) * cells + lane * plates;
    let first = bed.first[w];
    let last = bed.last[w];
    while (last + 1 < plates && pore[base + last + 1] + sorbed[base + last + 1] > 0) last++;
    while (first < plates && pore[base + first] + sorbed[base + first] === 0) first++;
    while (last >= first && pore[base + last] + sorbed[base + last] === 0) last--;
    bed.first[w] = first;
    bed.last[w] = last;
  }
}
