import fc from 'fast-check';
import { cumulativeStdNormalProbability, gammaln, mean, probit, sampleStandardDeviation, tTest } from 'simple-statistics';
import { describe, expect, it, test } from 'vitest';
import { parameterDefaults } from '../../../sim/terms/fields.ts';
import { budgetOf, rootSumSquares, workUpTerms } from '../../../sim/report/budget.ts';
import { dixonQ, grubbs, grubbsCritical, grubbsLimit } from '../../../sim/statistics/outliers.ts';
import { contrastOf, replicatesOf } from '../../../sim/statistics/replicate.ts';
import { comparisonOf, summaryOf } from '../../../sim/statistics/statistics.ts';
import { incompleteBeta, lnGamma, tProbability, tQuantile } from '../../../sim/math/student.ts';

describe('t quantile', () => {
  // Table of the University of Southampton level-4 laboratories, read: 95 % and 90 %, two-sided.
  it.each([12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228].map((t, i) => [i + 1, t]))(
    'for 95 %% and df %i is that of the table',
    (df, t) => {
      expect(Math.abs(tQuantile(0.95, df) - t)).toBeLessThan(0.001);
    },
  );

  it.each([6.314, 2.92, 2.353, 2.132, 2.015].map((t, i) => [i + 1, t]))('for 90 %% and df %i is that of the table', (df, t) => {
    expect(Math.abs(tQuantile(0.9, df) - t)).toBeLessThan(0.001);
  });

  it('has the closed forms of one and two degrees of freedom', () => {
    for (const level of [0.5, 0.9, 0.95, 0.99, 0.999]) {
      expect(tQuantile(level, 1)).toBeCloseTo(Math.tan((Math.PI * level) / 2), 6);
      expect(tQuantile(level, 2)).toBeCloseTo(level * Math.sqrt(2 / (1 - level * level)), 8);
    }
  });

  it('tends to the normal quantile of a general-purpose library', () => {
    expect(tQuantile(0.95, 1e6)).toBeCloseTo(probit(0.975), 2);
    expect(tProbability(1.5, 1e7)).toBeCloseTo(2 * cumulativeStdNormalProbability(1.5) - 1, 3);
  });

  it('is undone by its probability', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 0.999, noNaN: true }), fc.integer({ min: 1, max: 60 }), (level, df) => {
        expect(tProbability(tQuantile(level, df), df)).toBeCloseTo(level, 9);
      }),
      { seed: 41 },
    );
  });
});

test('lnGamma agrees with a general-purpose library and with factorials', () => {
  for (const x of [0.5, 1, 1.5, 3, 7.25, 20, 100]) expect(Math.abs(lnGamma(x) - gammaln(x))).toBeLessThan(1e-3);
  expect(lnGamma(11)).toBeCloseTo(Math.log(3628800), 10);
  expect(incompleteBeta(0.3, 1, 1)).toBeCloseTo(0.3, 12);
});

describe('summary', () => {
  it('of 12.40, 12.45, 12.43 mL has mean 12.4267, s 0.02517, RSD 0.2025 %, half-width 0.0625 (formula)', () => {
    const summary = summaryOf([12.4, 12.45, 12.43]);
    expect(summary?.mean).toBeCloseTo(12.4267, 4);
    expect(summary?.s).toBeCloseTo(0.02517, 5);
    expect(summary?.rsd_percent).toBeCloseTo(0.2025, 4);
    expect(summary?.halfWidth).toBeCloseTo(0.0625, 4);
  });

  it('of a real set 10.10, 10.00, 10.10 mL of 0.02043 M EDTA: 10.067 mL, 0.5735 %, 13.07 mg copper (student report, volumes and mg read)', () => {
    const summary = summaryOf([10.1, 10, 10.1]);
    expect(summary?.mean).toBeCloseTo(10.0667, 3);
    expect(summary?.rsd_percent).toBeCloseTo(0.5735, 3);
    expect((summary?.mean ?? 0) * 0.02043 * 63.546).toBeCloseTo(13.069, 3);
    expect(summary?.halfWidth).toBeCloseTo(0.143, 3);
  });

  it('has half-width 2.218 for a standard error of 0.799 and n = 5 (worked example on the page of the t table, read)', () => {
    expect(tQuantile(0.95, 4) * 0.799).toBeCloseTo(2.218, 3);
  });

  it('agrees with a general-purpose library', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 1, max: 100, noNaN: true }), { minLength: 3, maxLength: 12 }), (values) => {
        const summary = summaryOf(values);
        expect(summary?.mean).toBeCloseTo(mean(values), 9);
        expect(summary?.s).toBeCloseTo(sampleStandardDeviation(values), 9);
      }),
      { seed: 42 },
    );
  });

  it('has an interval that shrinks with n at the same s', () => {
    const width = (n: number) => tQuantile(0.95, n - 1) / Math.sqrt(n);
    for (let n = 2; n < 30; n++) expect(width(n + 1)).toBeLessThan(width(n));
  });

  it('is none for a single value', () => {
    expect(summaryOf([12.43])).toBeUndefined();
  });
});

test('comparison with a true value has the t of a general-purpose library, sample s put for its population s', () => {
  const values = [0.497, 0.499, 0.501, 0.496];
  const summary = summaryOf(values);
  const comparison = summary && comparisonOf(summary, 0.5);
  // That library divides by the population standard deviation: sqrt(n / (n-1)) larger.
  expect(comparison?.t).toBeCloseTo(Math.abs(tTest(values, 0.5)) * Math.sqrt(3 / 4), 9);
  expect(comparison?.within).toBe(true);
});

describe('outlier tests', () => {
  it('keep 12.95 beside 12.40 and 12.45: Q 0.909 < 0.941 (90 % two-sided), G 1.1508 < 1.153', () => {
    const q = dixonQ([12.4, 12.45, 12.95]);
    const g = grubbs([12.4, 12.45, 12.95], 0.05, 'one-sided');
    expect(q).toMatchObject({ suspect: 12.95, critical: 0.941, flagged: false });
    expect(q?.statistic).toBeCloseTo(0.909, 3);
    expect(q?.level).toContain('90 % two-sided');
    expect(g).toMatchObject({ suspect: 12.95, flagged: false, level: '95 % one-sided' });
    expect(g?.statistic).toBeCloseTo(1.1508, 4);
    expect(g?.critical).toBeCloseTo(1.153, 3);
  });

  // Read in an open table, except N = 7, where it prints 2.202: the formula gives 2.020.
  it.each([
    [3, 1.1545],
    [4, 1.481],
    [5, 1.715],
    [6, 1.887],
    [7, 2.02],
    [8, 2.127],
    [9, 2.215],
    [10, 2.29],
  ])('Grubbs two-sided 5 %% for N = %i', (n, G) => {
    expect(Math.abs(grubbsCritical(n) - G)).toBeLessThan(0.001);
  });

  // ASTM E178 as printed in Harris, recalled.
  it.each([
    [3, 1.153],
    [4, 1.463],
    [5, 1.672],
    [6, 1.822],
    [7, 1.938],
    [8, 2.032],
    [9, 2.11],
    [10, 2.176],
  ])('Grubbs one-sided 5 %% for N = %i', (n, G) => {
    expect(Math.abs(grubbsCritical(n, 0.05, 'one-sided') - G)).toBeLessThan(0.002);
  });

  it('cannot reach beyond G 1.1547 with three values, and say so', () => {
    expect(grubbsLimit(3)).toBeCloseTo(1.1547, 4);
    fc.assert(
      fc.property(fc.array(fc.double({ min: 1, max: 100, noNaN: true }), { minLength: 3, maxLength: 3 }), (values) => {
        const test = grubbs(values);
        if (test) expect(test.statistic).toBeLessThanOrEqual(grubbsLimit(3) + 1e-9);
        if (test) expect(test.caution).toContain('fourth');
      }),
      { seed: 43 },
    );
  });

  it('are none without spread or with two values', () => {
    expect(dixonQ([1, 1, 1])).toBeUndefined();
    expect(grubbs([1, 2])).toBeUndefined();
  });
});

describe('error budget', () => {
  const terms = [
    { quantity: 'titre', value: 12.43, tolerance: 0.05, unit: 'mL' },
    { quantity: 'EDTA', value: 0.01, tolerance: 0.00002, unit: 'mol/L' },
    { quantity: 'flask', value: 100, tolerance: 0.08, unit: 'mL' },
    { quantity: 'portion', value: 25, tolerance: 0.03, unit: 'mL' },
    { quantity: 'sample pipette', value: 1, tolerance: 0.006, unit: 'mL' },
  ];

  it('has relative contributions 0.402, 0.200, 0.080, 0.120, 0.600 % (formula)', () => {
    expect(budgetOf(terms).lines.map(({ relative_percent }) => Math.round(relative_percent * 1000) / 1000)).toEqual([0.402, 0.2, 0.08, 0.12, 0.6]);
    expect(budgetOf(terms).largest).toBe('sample pipette');
  });

  it.each([
    ['tolerance', 0.763],
    ['rectangular', 0.441],
    ['triangular', 0.312],
  ] as const)('as %s is %f %%', (spread, percent) => {
    expect(Math.abs(budgetOf(terms, spread).relative_percent - percent)).toBeLessThan(0.002);
  });

  it('finds 0.4972 mol/L and 29.30 mg per mL for these figures', () => {
    const mmol = (12.43 * 0.01 * 100) / 25;
    expect(mmol / 1).toBeCloseTo(0.4972, 4);
    expect(mmol * 58.933).toBeCloseTo(29.3, 2);
  });

  it('takes two burette readings of 0.02 mL as 0.0283 mL', () => {
    expect(rootSumSquares([0.02, 0.02])).toBeCloseTo(0.0283, 4);
  });

  it('of a bench takes its tolerances from the class tables', () => {
    const lines = workUpTerms(
      { titre_mL: 12.43, flask_mL: 100, portion_mL: 25, eluate_mL: 40, rinsed: { rinses: 2, rinse_mL: 5 } },
      { ...parameterDefaults(), 'workup.burette_mL': 50 },
    );
    expect(Object.fromEntries(lines.map(({ quantity, tolerance }) => [quantity, tolerance]))).toMatchObject({
      titre: 0.05,
      EDTA: 0.00002,
      'sample pipette': 0.006,
      'volumetric flask': 0.08,
      'portion pipette': 0.03,
    });
  });
});

describe('replicates', () => {
  it('carry mean, comparison and both tests', () => {
    const figures = replicatesOf([0.497, 0.501, 0.499], 0.5);
    expect(figures.summary?.mean).toBeCloseTo(0.499, 12);
    expect(figures.comparison?.difference_percent).toBeCloseTo(-0.2, 9);
    expect(figures.outliers.map(({ test: name }) => name)).toEqual(['Dixon Q', 'Grubbs G']);
  });

  it('split what columns add from what titrating adds', () => {
    const { columnSpread } = contrastOf([0.48, 0.5, 0.52], [0.499, 0.5, 0.501], 0.5);
    expect(columnSpread).toBeCloseTo(Math.sqrt(0.02 ** 2 - 0.001 ** 2), 12);
    expect(contrastOf([0.5, 0.5, 0.5001], [0.49, 0.5, 0.51]).columnSpread).toBe(0);
    expect(contrastOf([0.5], [0.49, 0.5]).columnSpread).toBeUndefined();
  });
});
