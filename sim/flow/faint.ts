import type { Bed, Column } from '../column/index.ts';

/**
 * Cells with less than this (mmol/mL) count as empty: a billionth of what was poured, spread over the bed, or what keeps denormal
 * numbers out of the loops. What they held waits in `dust` for the first cell of the next sweep, so that nothing is lost.
 */
export function nothing(bed: Bed, column: Column, component: number): number {
  return Math.max(LEAST, (FAINT * bed.pouredAmount[component]) / (column.section * column.length));
}

const LEAST = 1e-15;
const FAINT = 1e-9;
