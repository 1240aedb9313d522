import { describe, expect, it, test } from 'vitest';
import { EDTA_SETS } from '../../../sim/flask/constants.ts';
import { logConditional, pMetal, protonationAt } from '../../../sim/flask/edta.ts';

const relative = (found: number, expected: number) => Math.abs(found / expected - 1);

describe('alpha of Y4-', () => {
  // Computed from the pKa set 0.00, 1.50, 2.00, 2.69, 6.13, 10.37 (Harris 8e, read on a secondary page).
  it.each([
    [4, 2.992e-9],
    [5, 2.931e-7],
    [6, 1.815e-5],
    [7, 3.757e-4],
    [8, 4.191e-3],
    [9, 4.086e-2],
    [10, 0.299],
  ])('at pH %i is that of the 25 °C set', (pH, alpha) => {
    expect(relative(protonationAt(pH, EDTA_SETS.warm).alpha, alpha)).toBeLessThan(0.002);
  });

  // A problem stated on the page where that set was read.
  it.each([
    [3.6, 4.44e-10],
    [10.35, 0.488],
  ])('at pH %f is that of the stated problem', (pH, alpha) => {
    expect(relative(protonationAt(pH, EDTA_SETS.warm).alpha, alpha)).toBeLessThan(0.005);
  });

  // Harvey 2000, Modern Analytical Chemistry, Table 9.12, p. 316, read; two figures printed.
  it.each([
    [3, 2.5e-11],
    [4, 3.6e-9],
    [5, 3.5e-7],
    [6, 2.2e-5],
    [7, 4.8e-4],
    [8, 5.4e-3],
    [9, 5.2e-2],
    [10, 0.35],
    [11, 0.85],
    [12, 0.98],
  ])('at pH %i agrees with the printed table for four constants', (pH, alpha) => {
    expect(relative(protonationAt(pH, EDTA_SETS.four).alpha, alpha)).toBeLessThan(0.03);
  });

  // Harris 6e prints 3.8e-9, 3.7e-7, 2.3e-5, 5.0e-4, 5.6e-3, 5.4e-2, 0.36, 0.85; recalled.
  it.each([
    [4, 3.8e-9],
    [5, 3.7e-7],
    [6, 2.3e-5],
    [7, 5.0e-4],
    [8, 5.6e-3],
    [9, 5.4e-2],
    [10, 0.36],
    [11, 0.85],
  ])('at pH %i agrees with the older printed set', (pH, alpha) => {
    expect(relative(protonationAt(pH, EDTA_SETS.cool).alpha, alpha)).toBeLessThan(0.025);
  });

  it('rises with pH and stays between 0 and 1', () => {
    let last = 0;
    for (let pH = 0; pH <= 14; pH += 0.1) {
      const { alpha, protons } = protonationAt(pH);
      expect(alpha).toBeGreaterThan(last);
      expect(alpha).toBeLessThanOrEqual(1);
      expect(protons).toBeGreaterThanOrEqual(0);
      expect(protons).toBeLessThanOrEqual(6);
      last = alpha;
    }
  });
});

test('free EDTA carries 1.575, 1.936 and 2.040 protons at pH 6, 5 and 4 (computed from the 25 °C set)', () => {
  expect(protonationAt(6).protons).toBeCloseTo(1.575, 3);
  expect(protonationAt(5).protons).toBeCloseTo(1.936, 3);
  expect(protonationAt(4).protons).toBeCloseTo(2.04, 3);
});

describe('conditional constant', () => {
  // log K 16.45 recalled (Harris 8e Table 11-2); products computed.
  it.each([
    [3, 5.76],
    [4, 7.93],
    [5, 9.92],
    [6, 11.71],
    [7, 13.02],
    [8, 14.07],
    [9, 15.06],
    [10, 15.93],
  ])('of cobalt at pH %i', (pH, logK) => {
    expect(Math.abs(logConditional('Co', pH) - logK)).toBeLessThan(0.01);
  });

  it('of nickel is 1.95 above that of cobalt at every pH', () => {
    for (let pH = 2; pH <= 12; pH += 0.5) expect(logConditional('Ni', pH) - logConditional('Co', pH)).toBeCloseTo(1.95, 10);
  });

  // Harvey 2000, Table 9.13, read; log K 16.46 for cadmium reproduces its pH 10 entry from alpha 0.35 and K 2.9e16.
  it.each([
    [5, 1.0e10],
    [6, 6.4e11],
    [7, 1.4e13],
    [8, 1.6e14],
    [9, 1.5e15],
    [10, 1.0e16],
  ])('of cadmium at pH %i agrees with the printed table', (pH, K) => {
    expect(relative(2.9e16 * protonationAt(pH, EDTA_SETS.four).alpha, K)).toBeLessThan(0.04);
  });
});

describe('worked titration of 50.0 mL 5.00e-3 M cadmium with 0.0100 M EDTA', () => {
  const pCd = (mL: number, K: number) => pMetal(0.25 / (50 + mL), (0.01 * mL) / (50 + mL), K);

  // Harvey, Analytical Chemistry 2.0, p. 534, read: 2.43, 9.26, 15.34 at pH 10 with K' 1.1e16. The first is 2.439 exactly.
  it.each([
    [5, 2.43, 0.015],
    [25, 9.26, 0.01],
    [30, 15.34, 0.01],
  ])('gives the printed pCd at pH 10 after %f mL', (mL, expected, tolerance) => {
    expect(Math.abs(pCd(mL, 1.1e16) - expected)).toBeLessThan(tolerance);
  });

  // K' 1.5e13 read on the same page; pCd computed from it.
  it.each([
    [5, 2.439],
    [25, 7.83],
    [30, 12.48],
  ])('gives the pCd of pH 7 after %f mL', (mL, expected) => {
    expect(Math.abs(pCd(mL, 1.5e13) - expected)).toBeLessThan(0.01);
  });
});

test('pMetal neither overflows nor goes negative far from equivalence', () => {
  for (const [metal, ligand] of [
    [1e-3, 0],
    [1e-3, 1e-9],
    [1e-3, 1e-3],
    [1e-3, 1],
    [1e-9, 1],
  ]) {
    const p = pMetal(metal, ligand, 1e16);
    expect(Number.isFinite(p)).toBe(true);
    expect(10 ** -p).toBeLessThanOrEqual(metal * (1 + 1e-9));
  }
});
