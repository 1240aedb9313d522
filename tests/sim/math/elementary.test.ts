import { Decimal } from 'decimal.js';
import { describe, expect, test } from 'vitest';
import { asinh, cbrt, cos, exp, ln, log1p, log10, pow10, power, sin, tan } from '../../../sim/math/elementary.ts';

// Judge: decimal.js, a general-purpose library for decimal arithmetic, at 40 digits.
const Exact = Decimal.clone({ precision: 40 });
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Numbers spread evenly and without order over a range. */
function spread(from: number, to: number, count = 2000): number[] {
  return Array.from({ length: count }, (_, i) => from + (to - from) * ((i * GOLDEN) % 1));
}

/** Largest error over the values, in units in the last place of the exact result. */
function worst(values: readonly number[], ours: (x: number) => number, exact: (x: Decimal) => Decimal): number {
  return Math.max(
    ...values.map((x) => {
      // The binary number itself: its short decimal form would be another number.
      const truth = exact(new Exact(x.toPrecision(80)));
      const near = Math.abs(truth.toNumber());
      const unit = 2 ** Math.max(-1074, Math.floor(Math.log2(near)) - 52);
      return truth.minus(ours(x).toPrecision(80)).abs().div(unit).toNumber();
    }),
  );
}

describe('the elementary functions, against decimal arithmetic of 40 digits', () => {
  test.each<[name: string, values: number[], ours: (x: number) => number, exact: (x: Decimal) => Decimal, places: number]>([
    ['exp', spread(-40, 40), exp, (x) => x.exp(), 1],
    ['exp of large and small numbers', spread(-700, 700, 300), exp, (x) => x.exp(), 1],
    ['exp near 0', spread(-1e-3, 1e-3), exp, (x) => x.exp(), 1],
    ['ln', spread(1e-6, 50), ln, (x) => x.ln(), 1],
    ['ln near 1', spread(0.9, 1.1), ln, (x) => x.ln(), 1],
    ['log10', spread(1e-9, 2000), log10, (x) => Exact.log10(x), 2],
    ['log1p', spread(-0.5, 3), log1p, (x) => x.plus(1).ln(), 4],
    ['log1p of traces', spread(1e-12, 1e-6), log1p, (x) => x.plus(1).ln(), 4],
    ['10 to the x', spread(-25, 25), pow10, (x) => Exact.pow(10, x), 3],
    ['x to the 2.4', spread(0, 3), (x) => power(x, 2.4), (x) => x.pow(2.4), 5],
    ['x to the 7', spread(-3, 3), (x) => power(x, 7), (x) => x.pow(7), 5],
    ['cube root', spread(-9, 9), cbrt, (x) => x.cbrt(), 2],
    ['asinh', spread(-30, 30), asinh, (x) => x.asinh(), 4],
    ['sine', spread(-3.1, 3.1), sin, (x) => x.sin(), 2],
    ['cosine', spread(-1.5, 1.5), cos, (x) => x.cos(), 2],
    ['tangent', spread(-1.4, 1.4), tan, (x) => x.tan(), 4],
  ])('%s', (_, values, ours, exact, places) => {
    expect(worst(values, ours, exact)).toBeLessThan(places);
  });

  test('keep to whole powers of ten', () => {
    for (let n = -20; n <= 22; n++) expect(pow10(n)).toBe(Number(`1e${n}`));
    for (let n = 0; n <= 22; n++) expect(log10(Number(`1e${n}`))).toBe(n);
  });

  test('have the limits of the language', () => {
    expect([exp(0), exp(800), exp(-800), exp(Number.NaN)]).toEqual([1, Number.POSITIVE_INFINITY, 0, Number.NaN]);
    expect([ln(1), ln(0), ln(-1), ln(Number.POSITIVE_INFINITY)]).toEqual([0, Number.NEGATIVE_INFINITY, Number.NaN, Number.POSITIVE_INFINITY]);
    expect([power(0, 2.5), power(-2, 3), power(2, -2), power(5, 0)]).toEqual([0, -8, 0.25, 1]);
    expect(ln(5e-324)).toBeCloseTo(-744.4400719213812, 10);
    expect(exp(-744)).toBeCloseTo(Math.exp(-744), 320);
    expect(log10(0.001)).toBeCloseTo(-3, 15);
  });

  test('turn over the whole circle', () => {
    for (const x of spread(-20, 20, 400)) {
      expect(sin(x)).toBeCloseTo(Math.sin(x), 14);
      expect(cos(x)).toBeCloseTo(Math.cos(x), 14);
    }
  });
});
