import { AT, type Bed, type Column } from '../column/index.ts';
import type { Fault, Issue } from '../terms/types.ts';
import { renew } from '../packing/index.ts';

/** Loss of volume between water and 9 M HCl at severity 1, as a share (no measured value found for 8 % cross-linking; 0 to 15 % assumed). */
export const SHRINK_MAX = 0.15;

/** Resin that shrinks in acid leaves a gap at the wall besides becoming shorter; both go back in water. A resin that shrinks more by its grade keeps that. */
export function swelling(bed: Bed, column: Column, fault: Fault): Issue | undefined {
  bed.scalar[AT.shrinkage] = Math.max(bed.scalar[AT.shrinkage], (fault.severity ?? 1) * SHRINK_MAX);
  renew(bed, column);
  return undefined;
}
