// Numbers read from a run: where a band is, what each receiver holds.
import { AT, type Bed } from './bed.ts';
import type { Column } from './column.ts';
import type { IonId } from '../terms/types.ts';

/** A band on the bed, depths in cm below the bed top; the edges are where the eye sees it begin and end. */
export interface Band {
  readonly amount_mmol: number;
  readonly centroid_cm: number;
  readonly leading_cm: number;
  readonly trailing_cm: number;
}

/**
 * Amount at an edge of a band over that at its peak. The eye puts the edge where the colour is half-way between that of the band and
 * that of the bare bed: with the computed colours at 3 to 8 % of the peak, for peaks of 0.1 to 0.03 mmol of cobalt per mL. What lies beyond, such as the
 * tail of slow exchange, is a tint that fades without an end.
 */
export const EDGE_SHARE = 0.05;

/** The band of an ion over all lanes; undefined while the bed holds none of it. Along the bed as packed, or as a ruler reads a bed of this height. */
export function bandOf(bed: Bed, column: Column, ion: IonId, height = column.length): Band | undefined {
  const profile = amountsByDepth(bed, column, column.ions.indexOf(ion) + 1);
  return bandIn(profile, height / bed.plates, 1, 0, column.length - height);
}

/**
 * The band in a profile of equal cells of length `dz`, the first of which begins at `top`, that holds `unit` mmol for every 1 of the
 * profile; undefined for less than `least` mmol.
 */
export function bandIn(profile: ArrayLike<number>, dz: number, unit = 1, least = 0, top = 0): Band | undefined {
  let total = 0;
  let moment = 0;
  let peak = 0;
  for (let j = 0; j < profile.length; j++) {
    total += profile[j];
    peak = Math.max(peak, profile[j]);
    moment += profile[j] * (j + 0.5);
  }
  if (!(total > 1e-12 && total * unit >= least)) return undefined;
  return {
    amount_mmol: total * unit,
    centroid_cm: top + (moment / total) * dz,
    leading_cm: top + lastAbove(profile, EDGE_SHARE * peak) * dz,
    trailing_cm: top + firstAbove(profile, EDGE_SHARE * peak) * dz,
  };
}

/** Depth (cm) of an edge of an ion's band; 0 before it is loaded, the bed length once it has left. */
export function frontDepth(bed: Bed, column: Column, ion: IonId, edge: 'leading' | 'trailing'): number {
  const band = bandOf(bed, column, ion);
  if (!band)
    return bed.pouredAmount[column.ions.indexOf(ion) + 1] > 0 && bed.scalar[AT.headVolume] >= 0 && bed.head[column.ions.indexOf(ion) + 1] < 1e-12
      ? column.length
      : 0;
  return edge === 'leading' ? band.leading_cm : band.trailing_cm;
}

/** mmol of a component in all receivers together. */
export function inReceivers(bed: Bed, component: number): number {
  let sum = 0;
  for (let r = 0; r < bed.scalar[AT.receivers]; r++) sum += bed.receivers[r * (bed.components + 1) + 1 + component];
  return sum;
}

/** Height of the packed resin now, cm: mean over the lanes by area. */
export function bedLengthOf(bed: Bed, column: Column): number {
  let volume = 0;
  for (let at = 0; at < bed.height.length; at++) volume += bed.height[at] * column.cellVolume[Math.floor(at / bed.plates)];
  return volume / column.section;
}

/** mmol of a component at each plate, all lanes together, beads and liquid. */
export function amountsByDepth(bed: Bed, column: Column, component: number): Float64Array {
  const profile = new Float64Array(bed.plates);
  const cells = bed.lanes * bed.plates;
  for (let at = 0; at < cells; at++) {
    const k = component * cells + at;
    profile[at % bed.plates] +=
      bed.pore[k] * bed.mobile[at] + bed.still[k] * bed.stillVolume[at] + bed.sorbed[k] * column.cellVolume[Math.floor(at / bed.plates)];
  }
  return profile;
}

/** Depth, in cells, at which a profile first rises to `least`, joining the middles of cells; 0 if the top cell is above it. */
function firstAbove(profile: ArrayLike<number>, least: number): number {
  let j = 0;
  while (profile[j] < least) j++;
  return j === 0 ? 0 : j + 0.5 - (profile[j] - least) / (profile[j] - profile[j - 1]);
}

/** Depth, in cells, at which it last falls to `least`; the end of the bed if the bottom cell is above it. */
function lastAbove(profile: ArrayLike<number>, least: number): number {
  let j = profile.length - 1;
  while (profile[j] < least) j--;
  return j === profile.length - 1 ? profile.length : j + 0.5 + (profile[j] - least) / (profile[j] - profile[j + 1]);
}
