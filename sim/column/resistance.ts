import { AT, type Bed } from './bed.ts';
import type { Column } from './column.ts';
import { weighLane } from './cell.ts';
import { power } from '../math/elementary.ts';

// Resistance of cells: packing, gas between the beads, and a crack between bed and wall.

/** Relative permeability (1 - Sg)^3.5, fitted to 0.62 at 14 % and 0.05 at 55 % gas (Fry, Selker and Gorelick 1997, abstract read). */
const GAS_EXPONENT = 3.5;

/** Permeability beside a slot over that of the lane alone: area shares of slot (h²/12, plane Poiseuille flow) and bed. */
export function crackFactor(gap_cm: number, width_cm: number, area_cm2: number, permeability_cm2: number): number {
  const share = (gap_cm * width_cm) / area_cm2;
  const ratio = (gap_cm * gap_cm) / 12 / permeability_cm2;
  // A slot narrower than the pores between the beads carries no more than they do.
  return ratio > 1 ? 1 + share * (ratio - 1) : 1;
}

/** Recomputes the resistance of every cell of a lane, and the lane's weight and drag. */
export function resistLane(bed: Bed, column: Column, lane: number): void {
  const { packing, gas, resistance, plates } = bed;
  const crack = crackOf(bed, column, lane, bed.crack[lane]);
  const beside = bed.cracked[lane];
  const shrinking = bed.scalar[AT.shrinkage] > 0 && lane > 0;
  for (let j = 0; j < plates; j++) {
    const at = lane * plates + j;
    const factor = shrinking ? crackOf(bed, column, lane, (j < beside ? bed.crack[lane] : 0) + shrunkGap(bed, column, at)) : j < beside ? crack : 1;
    resistance[at] = packing[at] / (gas[at] > 0 ? power(1 - gas[at], GAS_EXPONENT) : 1) / factor;
  }
  weighLane(bed, column, lane);
}

function crackOf(bed: Bed, column: Column, lane: number, gap: number): number {
  if (gap <= 0 || lane === 0) return 1;
  const width = (Math.PI * column.scenario.values['column.bore_cm']) / (bed.lanes - 1);
  return crackFactor(gap, width, column.lanes.area[lane], column.permeability * column.lanes.permeability[lane]);
}

/** Share of the gap left open after the bed has shrunk: most of it heals as the beads slide down (assumed). */
const OPEN_SHARE = 0.2;

/** Gap (cm) that a bed shrunk in acid leaves at the wall: R (1 - (1 - s)^(1/3)), to second order in s (derived; no measured s found). */
function shrunkGap(bed: Bed, column: Column, at: number): number {
  const s = 1 - bed.swollen[at];
  return (column.scenario.values['column.bore_cm'] / 2) * (s / 3) * (1 + s / 3) * OPEN_SHARE;
}
