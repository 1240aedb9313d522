// One step of the metals of one lane, after its acid: the same rules as in `sweep-acid.ts`, with a capacity that they share.
import type { Bed, Column, Flux } from '../column/index.ts';
import { cbrt } from '../math/elementary.ts';
import { nothing } from './faint.ts';
import { openInto, retake } from './load.ts';
import { sweepTogether } from './sweep-together.ts';

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
    const moving = sweepTogether(bed, column, lane, Math.max(from, top), to, draining, flux);
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
