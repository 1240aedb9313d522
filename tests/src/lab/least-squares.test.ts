import { describe, expect, test } from 'vitest';
import { fitted } from '../../../src/lab/fit/least-squares.ts';

// NIST Statistical Reference Datasets, nonlinear regression, Misra1a (D. Misra 1978, monomolecular adsorption), lower level of
// difficulty; data, start 2 and certified values read. y = b1 (1 - exp(-b2 x)).
const Y = [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78];
const X = [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760];
const CERTIFIED = {
  b1: 238.94212918,
  b2: 5.5015643181e-4,
  s1: 2.7070075241,
  s2: 7.2668688436e-6,
  residualSum: 0.12455138894,
  residualDeviation: 0.1018787633,
};

describe('least squares', () => {
  const start = [250, 0.0005];
  const unit = [50, 0.0001];
  const at = (u: readonly number[]) => u.map((value, k) => start[k] + unit[k] * value);
  const model = (u: readonly number[]) => {
    const [b1, b2] = at(u);
    return X.map((x) => b1 * (1 - Math.exp(-b2 * x)));
  };
  const fit = fitted({ model, measured: Y, deviation: Y.map(() => CERTIFIED.residualDeviation), parameters: 2, prior: false, step: 1e-4, rounds: 40 });

  test('find the certified parameters of Misra1a', () => {
    const [b1, b2] = at(fit.u);
    expect(b1 / CERTIFIED.b1).toBeCloseTo(1, 6);
    expect(b2 / CERTIFIED.b2).toBeCloseTo(1, 6);
  });

  test('find its certified standard deviations and sum of squares', () => {
    expect((unit[0] * Math.sqrt(fit.covariance[0][0])) / CERTIFIED.s1).toBeCloseTo(1, 4);
    expect((unit[1] * Math.sqrt(fit.covariance[1][1])) / CERTIFIED.s2).toBeCloseTo(1, 4);
    expect((fit.chiSquareAfter * CERTIFIED.residualDeviation ** 2) / CERTIFIED.residualSum).toBeCloseTo(1, 6);
  });

  // A normal prior of width 1 and one measurement of deviation s at m: mean m/(1 + s²), variance s²/(1 + s²) (normal with normal prior, any text on Bayesian estimation).
  test('weigh a measurement against what was known before', () => {
    const one = fitted({ model: ([u]) => [u, u], measured: [3, 3], deviation: [2, 2], parameters: 1, prior: true, step: 1e-3, rounds: 20 });
    expect(one.u[0]).toBeCloseTo(3 / (1 + 2), 4);
    expect(one.covariance[0][0]).toBeCloseTo(2 / 3, 6);
  });
});
