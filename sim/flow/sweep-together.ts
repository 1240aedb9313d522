// One step of the metals of one lane where load and uptake are tied tightly: all metals of a cell are solved together.
import { chlorideLeft } from '../chemistry/index.ts';
import type { Bed, Column, Flux } from '../column/index.ts';
import { nothing } from './faint.ts';
import { SETTLED } from './load.ts';

/** Passes over the shared capacity in one cell at most; it is found once its occupied share changes by less than `SETTLED`. */
const PASSES = 30;

/** The hot loop, long because calls and repeated look-ups in it would cost more than the arithmetic. */
export function sweepTogether(bed: Bed, column: Column, lane: number, from: number, to: number, draining: number, flux: Flux): boolean {
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
