// Per metal and lane: the stretch of cells that can hold any of the metal. Cells outside it are not computed.
import type { Bed } from './bed.ts';

/** Takes the cells `from` to `to` of a lane into the stretch of a metal, counted from 0. */
export function widen(bed: Bed, metal: number, lane: number, from: number, to: number): void {
  const w = metal * bed.lanes + lane;
  if (bed.first[w] > from) bed.first[w] = from;
  if (bed.last[w] < to) bed.last[w] = to;
}

/** Leaves no cell in the stretch of a metal. */
export function empty(bed: Bed, metal: number, lane: number): void {
  const w = metal * bed.lanes + lane;
  bed.first[w] = bed.plates;
  bed.last[w] = -1;
}
