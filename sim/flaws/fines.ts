import { AT, type Bed, type Column } from '../column/index.ts';
import type { Fault, Issue } from '../terms/types.ts';
import { renew } from '../packing/index.ts';
import { square } from '../math/square.ts';

/** Broken beads, µm, and their share of the resin at severity 1 (5 % is common in worn resin: estimate). */
const FINES_UM = 20;
export const FINES_MAX = 0.15;
/** g/cm² per mL/min that the support gains per mL passed at severity 1 (assumed). */
const CLOG_PER_ML = 0.4;

/** Fines fill the pores: permeability goes as the square of the surface-mean diameter, 1/d32 = sum x/d; some end on the support. */
export function fines(bed: Bed, column: Column, fault: Fault): Issue | undefined {
  const severity = fault.severity ?? 1;
  const factor = square(column.scenario.values['bed.bead_um'] / sauterDiameter(column.scenario.values['bed.bead_um'], severity * FINES_MAX));
  for (let at = 0; at < bed.packing.length; at++) bed.packing[at] *= factor;
  bed.scalar[AT.clogPerMl] += severity * CLOG_PER_ML;
  renew(bed, column);
  return undefined;
}

/** Surface-mean diameter (µm) of beads with a share of fines by volume. */
export function sauterDiameter(beads_um: number, share: number): number {
  return 1 / ((1 - share) / beads_um + share / FINES_UM);
}
