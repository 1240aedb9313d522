import { describe, expect, test } from 'vitest';
import vectors from '../data/transport-vectors.json' with { type: 'json' };
import { closeTo, type Closeness } from './asserts.ts';
import { chainDispersion, plateLaneMoments, plugLaneMoments, quadraticDispersion, twoLaneDispersion } from './lanes.ts';
import { momentsOf } from './measure.ts';
import { slowPlatesCumulants } from './plates.ts';
import { referenceRun } from './reference-column.ts';

const { test_vectors: given } = vectors;
const EXACT: Closeness = { relative: 1e-9 };
const mean = (f: readonly number[], v: readonly number[]): number => f.reduce((sum, share, i) => sum + share * v[i], 0);

describe('plug flow lanes', () => {
  test.each(given.two_lane_exchange.rows)('two that exchange at $omega per second', ({ f, v, omega, L, k, mean: t, var: variance, H, var_asymptotic }) => {
    const moments = plugLaneMoments({ f, v, exchange: [{ a: 0, b: 1, omega }], L, k });
    closeTo('mean', moments.mean, t, EXACT, 's');
    closeTo('variance', moments.variance, variance, { relative: 1e-8 }, 's²');
    closeTo('H', (L * moments.variance) / moments.mean ** 2, H, { relative: 1e-8 }, 'cm');
    if (var_asymptotic !== null) closeTo('asymptotic variance', (2 * twoLaneDispersion(f, v, omega) * L) / mean(f, v) ** 3, var_asymptotic, EXACT, 's²');
  });

  test.each(given.five_lane_chain.rows)('five in a row that exchange at $beta per second', ({ f, v, beta, L, mean: t, var: variance, D_taylor }) => {
    const exchange = [0, 1, 2, 3].map((i) => ({ a: i, b: i + 1, omega: f[i] * beta }));
    const moments = plugLaneMoments({ f, v, exchange, L, k: 0 });
    closeTo('mean', moments.mean, t, EXACT, 's');
    closeTo('variance', moments.variance, variance, { relative: 1e-8 }, 's²');
    if (D_taylor !== null)
      closeTo(
        'asymptotic dispersion',
        chainDispersion(
          f,
          v,
          exchange.map(({ omega }) => omega),
        ),
        D_taylor,
        EXACT,
        'cm²/s',
      );
  });

  test.each(given.aris_quadratic)('a quadratic profile of $delta spreads as Aris says', ({ delta, U, R, Dr, D_taylor, H, t_relax }) => {
    const spread = quadraticDispersion(delta, U, R, Dr);
    closeTo('D', spread.D, D_taylor, EXACT, 'cm²/s');
    closeTo('H', spread.H, H, EXACT, 'cm');
    closeTo('relaxation time', spread.relaxation, t_relax, { relative: 1e-4 }, 's');
  });
});

describe('lanes of stirred cells', () => {
  const equal = [0.5, 0.5].map((share) => ({ m: 0.08 * share, V: 0.2 * share, Q: 0.8 * share }));
  const [D, kL] = [0.6, 4];

  test('with equal flow have the moments of one lane, however they exchange', () => {
    const one = slowPlatesCumulants({ N: 20, t0: (20 * 0.08) / 0.8, k: (0.2 * D) / 0.08, kL });
    const two = plateLaneMoments({ plates: 20, lanes: equal, exchanges: [{ a: 0, b: 1, G: 0.03 }], D, kL });
    closeTo('mean', two.mean, one.mean, EXACT, 'min');
    closeTo('variance', two.variance, one.variance, EXACT, 'min²');
  });

  test('approach plug flow lanes as cells are added', () => {
    const [f, v, omega, L] = [[0.8, 0.2], [0.02, 0.03], 0.0005, 10];
    const plates = 400;
    const lanes = f.map((share, i) => ({ m: (share * L) / plates, V: 0, Q: share * v[i] }));
    const plug = plugLaneMoments({ f, v, exchange: [{ a: 0, b: 1, omega }], L, k: 0 });
    const cells = plateLaneMoments({ plates, lanes, exchanges: [{ a: 0, b: 1, G: (omega * L) / plates }], D: 0, kL: 1 });
    closeTo('mean', cells.mean, plug.mean, EXACT, 's');
    // A row of N cells adds mean²/N of its own.
    closeTo('variance', cells.variance - cells.mean ** 2 / plates, plug.variance, { relative: 0.02 }, 's²');
  });

  test('have the moments of the integrated column equations', () => {
    const [a, film, feed, end] = [0.2, 0.1, 0.02, 30];
    const lanes = [
      { m: 0.04, V: 0.11, Q: 0.45, b: film },
      { m: 0.05, V: 0.12, Q: 0.3, b: film },
      { m: 0.02, V: 0.05, Q: 0.2, b: film },
    ];
    const exchanges = [
      { a: 0, b: 1, G: 0.05 },
      { a: 1, b: 2, G: 0.02 },
      { a: 0, b: 2, G: 0.01 },
    ];
    const sampleAt = Array.from({ length: 6000 }, (_, i) => ((i + 1) * end) / 6000);
    const { outlet } = referenceRun({
      plates: 15,
      lanes,
      exchanges,
      sampleAt,
      end,
      capacity: 1,
      start: [1, 0],
      acid: { P: 0.3, Qf: 4, kappa: 1.2, a: 0.05, last: 0.1 },
      metals: [{ a, z: 2, D0: () => D, De: () => 0 }],
      inflow: [
        { from: 0, c: [1, 0.1] },
        { from: feed, c: [1, 0] },
      ],
    });
    const expected = plateLaneMoments({ plates: 15, lanes, exchanges, D, kL: 1 / (a + D * film) });
    const seen = momentsOf([0, ...sampleAt], [0, ...outlet[1]]);
    closeTo('mean', seen.mean - feed / 2, expected.mean, { relative: 1e-6 }, 'min');
    closeTo('variance', seen.variance - feed ** 2 / 12, expected.variance, { relative: 1e-5 }, 'min²');
    expect(expected.variance).toBeGreaterThan(expected.mean ** 2 / 15);
  });
});
