import { describe, expect, test } from 'vitest';
import vectors from '../data/transport-vectors.json' with { type: 'json' };
import {
  equalSlowColumn,
  gaussianPulse,
  impulseFlux,
  slowColumnCdf,
  slowColumnCumulants,
  slowColumnPdf,
  slowColumnTransform,
  sphereCdf,
  stepFirstType,
  stepThirdType,
} from './advection.ts';
import { closeTo, type Closeness } from './asserts.ts';
import { invert, invertIntegral } from './laplace.ts';

const { test_vectors: given } = vectors;
const EXACT: Closeness = { relative: 1e-10, absolute: 1e-14 };

describe('advection with dispersion', () => {
  test.each(given.ogata_banks.rows)('x = $x, v = $v, D = $D, R = $R at t = $t is the published step', ({ x, v, D, R, t, first_type, third_type }) => {
    closeTo('first type', stepFirstType({ v, D, R }, x, t), first_type, EXACT);
    closeTo('third type', stepThirdType({ v, D, R }, x, t), third_type, { relative: 1e-8, absolute: 1e-12 });
  });

  test.each(given.gaussian_pulse_infinite.rows)('a pulse is Gaussian at x = $x, t = $t', ({ v, D, R, m, t, x, c }) =>
    closeTo('c', gaussianPulse({ v, D, R }, m, x, t), c, EXACT),
  );

  test.each(given.ade_flux_impulse.rows)('an impulse leaves L = $L at t = $t as an inverse Gaussian', ({ L, v, D, R, t, E, F }) => {
    closeTo('E', impulseFlux({ v, D, R }, L, t), E, EXACT, '1/s');
    closeTo('F', stepFirstType({ v, D, R }, L, t), F, { relative: 1e-9, absolute: 1e-14 });
  });

  test('carries the flux of the third-type solution, which is the first-type one', () => {
    const column = { v: 1, D: 0.5, R: 1 };
    const step = 1e-4;
    const slope = (stepThirdType(column, 10 + step, 8) - stepThirdType(column, 10 - step, 8)) / (2 * step);
    closeTo('flux', stepThirdType(column, 10, 8) - (column.D / column.v) * slope, stepFirstType(column, 10, 8), { relative: 1e-7 });
  });
});

describe('dispersion with slow uptake', () => {
  test.each(given.lapidus_amundson.rows)('L = $L, D = $D, k = $k, kL = $kL at $t s', ({ L, v, D, k, kL, t, E, F, mean, var: variance, kappa3 }) => {
    const column = { L, v, D, k, kL };
    const cumulants = slowColumnCumulants(column);
    closeTo('E', slowColumnPdf(column, t), E, { relative: 1e-7, absolute: 1e-15 }, '1/s');
    closeTo('F', slowColumnCdf(column, t), F, { relative: 1e-8, absolute: 1e-13 });
    closeTo('E by inversion', invert(slowColumnTransform(column), t), E, { relative: 1e-6, absolute: 1e-14 }, '1/s');
    closeTo('F by inversion', invertIntegral(slowColumnTransform(column), t), F, { relative: 1e-6, absolute: 1e-11 });
    closeTo('mean', cumulants.mean, mean, EXACT, 's');
    closeTo('variance', cumulants.variance, variance, EXACT, 's²');
    closeTo('third cumulant', cumulants.third, kappa3, EXACT, 's³');
  });
});

describe('diffusion into spheres', () => {
  test.each(given.sphere_diffusion_film.rows)('K = $K, r = $r, Ds = $Ds at $t s', ({ t, F, k, mean, var: variance, H, kL_equiv, ...column }) => {
    const equal = equalSlowColumn(column);
    const cumulants = slowColumnCumulants(equal);
    closeTo('F', sphereCdf(column, t), F, { relative: 1e-8, absolute: 1e-11 });
    closeTo('k', equal.k, k, EXACT);
    closeTo('kL', equal.kL, kL_equiv, EXACT, '1/s');
    closeTo('mean', cumulants.mean, mean, EXACT, 's');
    closeTo('variance', cumulants.variance, variance, EXACT, 's²');
    closeTo('H', (column.L * cumulants.variance) / cumulants.mean ** 2, H, EXACT, 'cm');
  });

  test('has nearly the response of its linear driving force when uptake is fast', () => {
    const { k, kL_equiv, t, F, mean, var: variance, H, ...column } = given.sphere_diffusion_film.rows[1];
    expect(k * kL_equiv * (column.L / column.v)).toBeGreaterThan(20);
    closeTo('F', slowColumnCdf(equalSlowColumn(column), t), F, { absolute: 0.01 });
    closeTo('plates', (mean * mean) / variance, column.L / H, { relative: 1e-9 });
  });
});
