import { AT, type Bed, type Column, resistLane } from '../column/index.ts';
import { exp } from '../math/elementary.ts';
import { beadOf } from '../terms/geometry.ts';
import { uniform } from '../math/random.ts';

// A bed that stays dry shrinks off the wall in places: vertical gaps that carry liquid past the beads.

/** Minutes dry before a gap opens, and until it is as wide as it gets in one drying (ridges and fast flow after drying: read; times estimated). */
const OPENS_AFTER_MIN = 10;
const FULL_AFTER_MIN = 30;
/** Width of a full gap over the bead diameter (estimate); a second drying can double it, no more. */
const GAP_BEADS = 0.5;
const GAPS_MOST = 2;
/** Share of the wall sectors that crack (estimate). */
const SECTORS = 0.3;

/** Counts minutes dry, lets air find wider ways in, and opens gaps beside what has drained. */
export function dryOut(bed: Bed, column: Column, time: number): void {
  const s = bed.scalar;
  const before = s[AT.dryMinutes];
  s[AT.dryMinutes] = before + time;
  const left = exp((-Math.LN2 * time) / column.scenario.values['bed.air_creep_min']);
  for (let i = 0; i < bed.lanes; i++) bed.airEntry[i] *= left;
  const grown = openness(s[AT.dryMinutes]) - openness(before);
  if (grown <= 0) return;
  for (let i = 1; i < bed.lanes; i++) {
    if (bed.drained[i] > 0 && cracks(bed, column, i)) crackLane(bed, column, i, grown, bed.drained[i]);
  }
}

/** Opens gaps as after `minutes` of a bed drained down to `cells` cells. */
export function crackBed(bed: Bed, column: Column, minutes: number, cells: number): void {
  for (let i = 1; i < bed.lanes; i++) if (cracks(bed, column, i)) crackLane(bed, column, i, openness(minutes), cells);
  bed.scalar[AT.dryMinutes] += minutes;
}

/** Gap over that of one long drying: grows on with every further drying. */
function openness(minutes: number): number {
  return Math.max(0, (minutes - OPENS_AFTER_MIN) / (FULL_AFTER_MIN - OPENS_AFTER_MIN));
}

function crackLane(bed: Bed, column: Column, lane: number, grown: number, cells: number): void {
  const full = GAP_BEADS * beadOf(column.scenario.values);
  const widest = full * Math.min(GAPS_MOST, Math.max(1, bed.scalar[AT.drainings]));
  bed.crack[lane] = Math.max(bed.crack[lane], Math.min(widest, bed.crack[lane] + full * grown));
  bed.cracked[lane] = Math.max(bed.cracked[lane], cells);
  resistLane(bed, column, lane);
}

/** The same sectors every time for a seed and a packing; at least one. */
function cracks(bed: Bed, column: Column, lane: number): boolean {
  const seed = column.scenario.seed + 104_729 * bed.scalar[AT.stirs];
  const first = 1 + Math.floor(uniform(seed).value * (bed.lanes - 1));
  return lane === first || uniform(seed + 31 * lane).value < SECTORS;
}
