import { decimalsApart } from '../../../sim/math/decimals.ts';
import { millimoles, percent } from './format.ts';

// A figure that is judged by a limit: written finely enough that it can be seen on which side of it it lies.

/** A share of 0 to 1 as a percentage. */
export function percentBeside(share: number, limit: number): string {
  return percent(share, decimalsApart(100 * share, 100 * limit, 1));
}

/** Amount, mmol, with so many decimals or more. */
export function millimolesBeside(value_mmol: number, limit_mmol: number, usual = 1): string {
  return millimoles(value_mmol, decimalsApart(value_mmol, limit_mmol, usual));
}
