import { curveMonotoneX, line } from 'd3-shape';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { monotoneCubic } from '../../../sim/math/interpolation.ts';
import { closeTo } from '../../exact/asserts.ts';

const SEED = { seed: 11, numRuns: 200 };
/** Points with steps of 0.05 to 3 between them, and values of either sign. */
const points = fc
  .array(fc.tuple(fc.double({ min: 0.05, max: 3, noNaN: true }), fc.double({ min: -6, max: 6, noNaN: true })), { minLength: 2, maxLength: 14 })
  .map((pairs) => {
    let x = -1;
    return { xs: pairs.map(([step]) => (x += step)), ys: pairs.map(([, y]) => y) };
  });

/** d3-shape's curve as Bezier pieces: its control points divide the step in x by three, so the share of the step is the parameter. */
function curveByLibrary(xs: readonly number[], ys: readonly number[]): number[][] {
  const path = line().curve(curveMonotoneX).digits(null)(xs.map((x, i) => [x, ys[i]])) ?? '';
  const numbers = (path.match(/-?\d[\d.e+-]*/g) ?? []).map(Number);
  return xs.slice(1).map((_, i) => [1, 3, 5, 7].map((k) => numbers[6 * i + k]));
}

describe('monotone cubic', () => {
  test('goes through its points', () => {
    fc.assert(
      fc.property(points, ({ xs, ys }) => {
        const curve = monotoneCubic(xs, ys);
        expect(Math.max(...xs.map((x, i) => Math.abs(curve(x) - ys[i])))).toBeLessThan(1e-12);
      }),
      SEED,
    );
  });

  test('rises or falls throughout between two points, as they do', () => {
    fc.assert(
      fc.property(points, ({ xs, ys }) => {
        const curve = monotoneCubic(xs, ys);
        for (let i = 0; i + 1 < xs.length; i++) {
          const way = Math.sign(ys[i + 1] - ys[i]);
          const samples = Array.from({ length: 41 }, (_, k) => curve(xs[i] + ((xs[i + 1] - xs[i]) * k) / 40));
          expect(Math.min(...samples.slice(1).map((y, k) => way * (y - samples[k])))).toBeGreaterThan(-1e-12);
        }
      }),
      SEED,
    );
  });

  test('is the curve of d3-shape 3, curveMonotoneX, a general-purpose library', () => {
    const xs = [0, 1, 1.5, 4, 4.2, 7, 9, 12];
    const ys = [-2, 1, 1.25, 3, 2.5, 2.5, -1, -1.5];
    const curve = monotoneCubic(xs, ys);
    curveByLibrary(xs, ys).forEach(([p0, p1, p2, p3], i) => {
      for (const t of [0.1, 0.3, 0.5, 0.7, 0.9]) {
        const bezier = (1 - t) ** 3 * p0 + 3 * (1 - t) ** 2 * t * p1 + 3 * (1 - t) * t ** 2 * p2 + t ** 3 * p3;
        closeTo(`value ${t} of the way from point ${i}`, curve(xs[i] + t * (xs[i + 1] - xs[i])), bezier, { absolute: 1e-12 });
      }
    });
  });

  test('keeps a straight line straight', () => {
    const xs = [0, 0.3, 1, 5, 5.5, 12];
    const curve = monotoneCubic(
      xs,
      xs.map((x) => 3 - 2 * x),
    );
    for (let x = 0; x <= 12; x += 0.1) expect(curve(x)).toBeCloseTo(3 - 2 * x, 12);
  });

  test('closes in on a smooth curve: half the spacing leaves less than a third of the error', () => {
    const worst = (steps: number) => {
      const xs = Array.from({ length: steps + 1 }, (_, i) => (4 * i) / steps - 2);
      const curve = monotoneCubic(xs, xs.map(Math.tanh));
      return Math.max(...Array.from({ length: 401 }, (_, i) => i / 100 - 2).map((x) => Math.abs(curve(x) - Math.tanh(x))));
    };
    for (const steps of [8, 16, 32]) expect(worst(2 * steps)).toBeLessThan(worst(steps) / 3);
  });

  test('is held at its end values outside, and everywhere for one point', () => {
    const curve = monotoneCubic([1, 2, 4], [5, 7, 6]);
    expect([curve(-3), curve(1), curve(4), curve(99)]).toEqual([5, 5, 6, 6]);
    expect([0, 1, 2].map(monotoneCubic([1], [5]))).toEqual([5, 5, 5]);
  });
});
