import { assert } from 'vitest';

// Comparisons that say what differed, by how much, where and in what unit.

/** How close two numbers have to be; either bound is enough. */
export interface Closeness {
  readonly relative?: number;
  readonly absolute?: number;
}

/** Fails unless `actual` is within either bound of `expected`. */
export function closeTo(quantity: string, actual: number, expected: number, closeness: Closeness, unit = ''): void {
  const error = Math.abs(actual - expected);
  const text = `${quantity}: expected ${expected}${spaced(unit)} within ${boundText(closeness, unit)}, received ${actual}${spaced(unit)}, ${differenceText(error, expected, unit)}`;
  assert(error <= bound(expected, closeness), text);
}

/** Fails unless two curves sampled at the same places agree everywhere; reports the place where they agree least. */
export function curvesClose(
  quantity: string,
  at: ArrayLike<number>,
  actual: ArrayLike<number>,
  expected: ArrayLike<number>,
  closeness: Closeness,
  units: { readonly at: string; readonly value: string },
): void {
  assert(actual.length === expected.length, `${quantity}: expected ${expected.length} samples, received ${actual.length}`);
  const worst = worstOf(actual, expected, closeness);
  const error = Math.abs(actual[worst] - expected[worst]);
  const text = `${quantity}: worst at ${at[worst]} ${units.at} (sample ${worst} of ${expected.length}), expected ${expected[worst]} within ${boundText(closeness, units.value)}, received ${actual[worst]}${spaced(units.value)}, ${differenceText(error, expected[worst], units.value)}`;
  assert(error <= bound(expected[worst], closeness), text);
}

/** Largest absolute difference of two curves and the sample where it is; NaN counts as the largest. */
export function worstDifference(actual: ArrayLike<number>, expected: ArrayLike<number>): { readonly index: number; readonly difference: number } {
  const index = worstOf(actual, expected, { absolute: 1 });
  return { index, difference: Math.abs(actual[index] - expected[index]) };
}

function worstOf(actual: ArrayLike<number>, expected: ArrayLike<number>, closeness: Closeness): number {
  let worst = 0;
  let most = -1;
  for (let i = 0; i < expected.length; i++) {
    const error = Math.abs(actual[i] - expected[i]);
    // 0 within 0 is no excess, and nothing is worse than a number that is none.
    const excess = error === 0 ? 0 : error / bound(expected[i], closeness);
    if (Number.isNaN(excess)) return i;
    if (excess > most) [worst, most] = [i, excess];
  }
  return worst;
}

function bound(expected: number, { relative = 0, absolute = 0 }: Closeness): number {
  return Math.max(relative * Math.abs(expected), absolute);
}

function boundText({ relative, absolute }: Closeness, unit: string): string {
  const parts = [relative === undefined ? '' : `${Number((relative * 100).toPrecision(6))} %`, absolute === undefined ? '' : `${absolute}${spaced(unit)}`];
  return parts.filter((part) => part !== '').join(' or ');
}

function differenceText(error: number, expected: number, unit: string): string {
  const share = expected === 0 ? '' : ` (${((error / Math.abs(expected)) * 100).toPrecision(3)} %)`;
  return `off by ${error.toPrecision(3)}${spaced(unit)}${share}`;
}

function spaced(unit: string): string {
  return unit === '' ? '' : ` ${unit}`;
}
