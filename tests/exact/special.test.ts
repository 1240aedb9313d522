import { describe, test } from 'vitest';
import vectors from '../data/transport-vectors.json' with { type: 'json' };
import { closeTo } from './asserts.ts';
import { besselI0Scaled, besselI1Scaled, binomial, erfc, erfcx, gammaP, gammaQ, jComplement, jFunction, lnGamma } from './special.ts';

// Relations: Abramowitz and Stegun 1964, chapters 6, 7 and 9 (recalled). Numbers: scipy.special, computed.
describe('ln Gamma', () => {
  test.each([
    [0.5, Math.log(Math.sqrt(Math.PI))],
    [1, 0],
    [5, Math.log(24)],
    [100, 359.1342053695754],
  ])('of %f is right', (x, expected) => closeTo(`ln Gamma(${x})`, lnGamma(x), expected, { relative: 1e-14, absolute: 2e-15 }));
});

describe('the incomplete gamma function', () => {
  test.each([0.3, 1, 4, 30])('of order 1 at %f is an exponential', (x) => {
    closeTo(`P(1,${x})`, gammaP(1, x), -Math.expm1(-x), { relative: 1e-14 });
    closeTo(`Q(1,${x})`, gammaQ(1, x), Math.exp(-x), { relative: 1e-13 });
  });

  test.each([
    [10, 2, 4.649807501726386e-5],
    [25, 20, 0.1567726218262378],
    [100, 110, 0.8417213299399129],
    [400, 300, 2.2066520142884493e-8],
  ])('P(%f, %f) is right', (a, x, expected) => closeTo(`P(${a},${x})`, gammaP(a, x), expected, { relative: 1e-11 }));

  test('keeps a tiny upper tail', () => closeTo('Q(3,60)', gammaQ(3, 60), (1 + 60 + 1800) * Math.exp(-60), { relative: 1e-12 })); // A&S 6.5.13
});

describe('the error function', () => {
  test.each([
    [0.5, 0.47950012218695346],
    [1, 0.15729920705028513],
    [2, 0.004677734981047266],
    [3, 2.209049699858544e-5],
  ])('erfc(%f) is right', (x, expected) => {
    closeTo(`erfc(${x})`, erfc(x), expected, { relative: 1e-13 });
    closeTo(`erfc(-${x})`, erfc(-x), 2 - expected, { relative: 1e-15 });
  });

  test.each([
    [0.5, 0.6156903441929259],
    [2, 0.25539567631050574],
    [10, 0.05614099274382259],
    [1000, 5.641893014533377e-4],
  ])('erfcx(%f) is right', (x, expected) => closeTo(`erfcx(${x})`, erfcx(x), expected, { relative: 1e-13 }));
});

describe('the modified Bessel functions', () => {
  test.each([
    [1, 0.46575960759364043, 0.20791041534970844],
    [10, 0.1278333371634286, 0.1212626813844555],
    [29.9, 0.07326921904600191, 0.0720333749118688],
    [30.1, 0.07302329413106094, 0.07179985435101434],
    [100, 0.03994437929909669, 0.03974415302513025],
  ])('of %f, scaled, are right', (x, i0, i1) => {
    closeTo(`e^-x I0(${x})`, besselI0Scaled(x), i0, { relative: 1e-11 });
    closeTo(`e^-x I1(${x})`, besselI1Scaled(x), i1, { relative: 1e-11 });
    closeTo(`e^-x I1(-${x})`, besselI1Scaled(-x), -i1, { relative: 1e-11 });
  });
});

describe('the J function', () => {
  // Quadrature and scipy.stats.ncx2.sf(2x, 2, 2y) agree on these.
  test.each(vectors.test_vectors.J_function.rows)('J($x, $y) is right', ({ x, y, J }) => {
    closeTo(`J(${x},${y})`, jFunction(x, y), J, { relative: 1e-11, absolute: 1e-14 });
    closeTo(`1 - J(${x},${y})`, jComplement(x, y), 1 - J, { absolute: 1e-13 });
  });

  test.each([
    [3, 4],
    [0.2, 9],
    [40, 45],
  ])('of (%f, %f) and of the swapped pair add up to 1 + e^(-x-y) I0', (x, y) => {
    const product = 2 * Math.sqrt(x * y);
    closeTo('J(x,y) + J(y,x)', jFunction(x, y) + jFunction(y, x), 1 + Math.exp(product - x - y) * besselI0Scaled(product), { relative: 1e-13 });
  });

  test('is 1 at x = 0 and an exponential at y = 0', () => {
    closeTo('J(0,2)', jFunction(0, 2), 1, { relative: 1e-14 });
    closeTo('J(2,0)', jFunction(2, 0), Math.exp(-2), { relative: 1e-14 });
  });
});

test('the number of ways to choose 5 of 10 is 252', () => closeTo('10 choose 5', binomial(10, 5), 252, { relative: 1e-15 }));
