import { describe, expect, test } from 'vitest';
import { fitted } from '../../../src/lab/squares/least-squares.ts';

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

  // One reading of slope 0.3 and deviation 1 against a prior of width 1: variance 1/(1 + 0.09), so a 95 % interval of ±1.88 (normal
  // theory). The model has no value below -0.1: the search for the lower end meets none, and must not stop next to the fit.
  test('give the interval of the slopes where no end is found, and hold every estimate in its interval', () => {
    const half = 1.96 / Math.sqrt(1.09);
    const { u, ends } = fitted({ model: ([a]) => [a > -0.1 ? 0.3 * a : Number.NaN], measured: [0], deviation: [1], parameters: 1, prior: true, step: 0.05 });
    expect(u[0]).toBeCloseTo(0, 3);
    expect(ends[0][1]).toBeCloseTo(half, 1);
    expect(ends[0][0]).toBeLessThan(-1);
    const jumping = fitted({
      model: ([a, b]) => [a + 0.4 * Math.round(2 * b), a - b * b + (b < -0.3 ? 3 : 0)],
      measured: [1, 0.2],
      deviation: [0.2, 0.3],
      parameters: 2,
      prior: true,
      step: 0.1,
    });
    for (const [k, [low, high]] of jumping.ends.entries()) {
      expect(low).toBeLessThanOrEqual(jumping.u[k]);
      expect(high).toBeGreaterThanOrEqual(jumping.u[k]);
    }
  });

  // The edge of a band is there only where a > -0.05, so one step below the start it has no value. Without the prior a = 1.5 and b = 0.5
  // fit exactly; the prior of width 1 moves them by about s² = 0.01 of themselves.
  test('move a number whose reading has no value one step away', () => {
    const edge = fitted({
      model: ([a, b]) => [a + b, a > -0.05 ? a : Number.NaN],
      measured: [2, 1.5],
      deviation: [0.1, 0.1],
      parameters: 2,
      prior: true,
      step: 0.1,
    });
    expect(edge.u[0]).toBeCloseTo(1.5, 1);
    expect(edge.u[1]).toBeCloseTo(0.5, 1);
    expect(edge.chiSquareAfter).toBeLessThan(0.1);
  });

  // (u + 0.8)((u - 1)² + 0.2) is zero at u = -0.8 alone, but downhill from 0 lies a hollow near u = 1, where it is 0.36, seven deviations.
  test('leave a hollow that fits poorly for the lowest place on the other side', () => {
    const curve = (u: number) => (u + 0.8) * ((u - 1) ** 2 + 0.2);
    const far = fitted({ model: ([u]) => [curve(u), curve(u)], measured: [0, 0], deviation: [0.05, 0.05], parameters: 1, prior: true, step: 0.1 });
    expect(far.u[0]).toBeCloseTo(-0.8, 2);
  });
});

// Davidian and Giltinan, Nonlinear Models for Repeated Measurement Data (Chapman and Hall 1995), ELISA of DNase, run 1, as shipped with R; y = A/(1 + exp((m - ln x)/s)).
// Estimates and standard errors read (R-help, July 2006); data, and the profile intervals of `confint` of nls, from memory.
describe('intervals by profile', () => {
  const concentrations = [0.048828125, 0.1953125, 0.390625, 0.78125, 1.5625, 3.125, 6.25, 12.5].flatMap((c) => [c, c]);
  const density = [0.017, 0.018, 0.121, 0.124, 0.206, 0.215, 0.377, 0.374, 0.614, 0.609, 1.019, 1.001, 1.334, 1.364, 1.73, 1.71];
  const [estimates, errors] = [
    [2.345182, 1.483092, 1.041455],
    [0.0781541, 0.08135333, 0.03227082],
  ];
  const published = [
    [2.19438797, 2.5389004],
    [1.3214522, 1.67907065],
    [0.97464187, 1.11482434],
  ];
  /** Residual standard deviation on 13 degrees of freedom. */
  const deviation = 0.01919449;
  /** Student's t there over the normal quantile: the published intervals estimate the deviation from the readings. */
  const wider = 2.160369 / 1.959964;
  const at = (u: readonly number[]) => u.map((value, k) => estimates[k] + 2 * errors[k] * (value - 0.7));
  const fit = fitted({
    model: (u) => {
      const [A, m, s] = at(u);
      return concentrations.map((x) => A / (1 + Math.exp((m - Math.log(x)) / s)));
    },
    measured: density,
    deviation: density.map(() => deviation * wider),
    parameters: 3,
    prior: false,
    step: 1e-3,
  });

  test('are those of the assay of DNase, longer to one side than to the other', () => {
    at(fit.u).forEach((value, k) => expect(value / estimates[k]).toBeCloseTo(1, 4));
    published.forEach((ends, k) => ends.forEach((end, side) => expect((at(fit.ends.map((one) => one[side]))[k] - end) / errors[k]).toBeCloseTo(0, 1)));
    const [low, high] = published[0].map((end) => Math.abs(end - estimates[0]));
    expect(high - low).toBeGreaterThan(0.5 * errors[0]);
  });

  // One measurement m of deviation s of exp(u): the sum has risen by 1.96² where exp(u) = m - 1.96 s and m + 1.96 s.
  test('are those of the curved scale where one number is measured', () => {
    const one = fitted({ model: ([u]) => [Math.exp(u), Math.exp(u)], measured: [3, 3], deviation: [1, 1], parameters: 1, prior: false, step: 1e-3 });
    const s = 1 / Math.SQRT2;
    expect(one.ends[0][0]).toBeCloseTo(Math.log(3 - 1.96 * s), 1);
    expect(one.ends[0][1]).toBeCloseTo(Math.log(3 + 1.96 * s), 1);
  });
});
