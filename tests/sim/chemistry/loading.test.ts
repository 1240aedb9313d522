import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chlorideLeft, innerChloride, loadPull, saltOf } from '../../../sim/chemistry/loading.ts';
import { closeTo } from '../../exact/asserts.ts';
import { evenly } from '../../exact/even.ts';

const Q = 4.2;
const left = (theta: number, c: number, kappa = 1) => chlorideLeft(1 - theta, saltOf(c, Q, kappa));

describe('a loaded resin', () => {
  // Worked by hand. Q 4.2 mol/L, 9 M HCl, kappa 1, theta 0.2: charge left 3.36, y = (3.36 + sqrt(3.36² + 4 81))/2 = (3.36 + 18.311)/2.
  test('of Q 4.2 mol/L in 9 M acid holds 10.835 mol/L of chloride when a fifth is taken, and 11.342 when none is', () => {
    closeTo('chloride, loaded', innerChloride(9, 3.36, 1), 10.8354, { absolute: 1e-4 }, 'mol/L');
    closeTo('chloride, unloaded', innerChloride(9, 4.2, 1), 11.3417, { absolute: 1e-4 }, 'mol/L');
    // Electroneutrality, Q + h = y + 2 s, with h = 81/y from Donnan and s = theta Q/2.
    closeTo('positive less negative charge', 4.2 + 81 / 10.8354 - (10.8354 + 2 * 0.42), 0, { absolute: 2e-4 }, 'mol/L');
  });

  // (10.835/11.342)² = 0.913; at theta 0.5 the charge left is 2.1, y = 10.111 and (10.111/11.342)² = 0.795.
  test.each([
    [0.2, 0.913],
    [0.5, 0.795],
  ])('takes up a divalent anion in 9 M acid, %d taken, %d times as well as a trace', (theta, uptake) =>
    closeTo('relative uptake', left(theta, 9) ** 2, uptake, { absolute: 5e-4 }),
  );

  test('in dilute acid takes up as (1 - theta)^z: ion exchange without co-ions', () => {
    for (const theta of [0.1, 0.5, 0.9, 0.999]) closeTo('chloride left', left(theta, 1e-6), 1 - theta, { relative: 1e-4 });
    for (const theta of [0.1, 0.5, 0.9, 1]) expect(left(theta, 9, 0)).toBe(1 - theta);
  });

  test('solves y² - Q (1 - theta) y - (kappa c)² = 0 until the last tenth of the sites, and holds nothing beyond them', () => {
    const share = evenly(0, 1);
    fc.assert(
      fc.property(share, evenly(0, 13), evenly(0, 2), (theta, c, kappa) => {
        const ratio = left(theta, c, kappa);
        const y = ratio * innerChloride(c, Q, kappa);
        if (ratio * ratio * 0.1 < (1 - theta) * (1 - 1e-12))
          expect(Math.abs(y * y - Q * (1 - theta) * y - (kappa * c) ** 2)).toBeLessThan(1e-10 * (Q + c * c * kappa));
        expect(ratio * ratio).toBeLessThanOrEqual(Math.min(1, (1 - theta) / 0.1) * (1 + 1e-12));
      }),
      { seed: 5 },
    );
    expect(left(1, 9)).toBe(0);
  });

  // Uptake goes as (1 - theta) over the last tenth of the sites, so -d ln(1 - theta)/d ln theta = theta/(1 - theta).
  test.each([0.9, 0.95, 0.99])('loses uptake as theta/(1 - theta) near full load, %d taken, in 9 M acid', (theta) => {
    closeTo('pull', loadPull(theta, saltOf(9, Q, 1)), theta / (1 - theta), { relative: 1e-9 });
  });

  test('loses uptake by its load as a difference quotient says', () => {
    for (const c of [0.01, 3, 9, 12])
      for (const theta of [0.05, 0.3, 0.7]) {
        const quotient = (-Math.log(left(theta + 1e-6, c) / left(theta - 1e-6, c)) / 1e-6) * theta;
        closeTo(`pull at ${theta} in ${c} mol/L`, loadPull(theta, saltOf(c, Q, 1)), quotient, { relative: 1e-5 });
      }
  });
});
