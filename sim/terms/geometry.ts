// Lengths, areas and volumes that follow from the parameters of a scenario alone.
import type { Parameters } from './fields.ts';
import { square } from '../math/square.ts';

export const CM_PER_UM = 1e-4;

/** Cross-section of the empty tube, cm². */
export function sectionOf(values: Parameters): number {
  return (Math.PI * square(values['column.bore_cm'])) / 4;
}

/** Bed with its liquid, mL. */
export function bedVolumeOf(values: Parameters): number {
  return sectionOf(values) * values['bed.length_cm'];
}

/** Bead diameter, cm. */
export function beadOf(values: Parameters): number {
  return values['bed.bead_um'] * CM_PER_UM;
}
