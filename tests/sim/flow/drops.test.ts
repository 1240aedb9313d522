import { expect, test } from 'vitest';
import { density } from '../../../sim/chemistry/acid.ts';
import { dropOf, dropVolume, harkinsBrown, surfaceTension } from '../../../sim/flow/drops.ts';
import { parameterDefaults } from '../../../sim/terms/fields.ts';
import { closeTo } from '../../exact/asserts.ts';
import { dropVolume as tate } from '../../exact/hydraulics.ts';

/** mol/L from % by mass: by repetition, for the density follows the molarity (36.461 g/mol). */
function molarityFromMassPercent(percent: number): number {
  let c = 0;
  for (let i = 0; i < 30; i++) c = (10 * percent * density(c)) / 36.461;
  return c;
}

// Surface tension of hydrochloric acid at 20 °C, mass percent and mN/m: handbook table, recalled. Water: 72.75 (table read).
test.each([
  [0, 72.75],
  [6.78, 72.25],
  [12.81, 71.85],
  [16.97, 71.75],
  [23.74, 70.55],
  [35.29, 65.75],
])('acid of %f % by mass has a surface tension of %f mN/m', (percent, tension) => {
  closeTo('surface tension', surfaceTension(molarityFromMassPercent(percent)), tension, { relative: 0.002 }, 'mN/m');
});

// Harkins and Brown 1919, table of correction factors, rows between those that the model holds; recalled.
test.each([
  [0.35, 0.7011],
  [0.45, 0.6669],
  [0.55, 0.6362],
  [0.65, 0.6171],
  [0.75, 0.6032],
  [0.85, 0.5992],
  [0.95, 0.6034],
  [1.05, 0.6179],
  [1.15, 0.6407],
])('a tip of %f cube roots of a drop keeps back all but %f of it', (ratio, share) => {
  closeTo('share that falls', harkinsBrown(ratio), share, { relative: 0.005 });
});

test('a drop obeys the law of Tate with the factor of its own size', () => {
  for (const radius of [0.05, 0.1, 0.15, 0.25]) {
    const volume = dropVolume(radius, 72.75, 0.9982);
    closeTo('drop', volume, tate(radius, 72.75, 0.9982, harkinsBrown(radius / Math.cbrt(volume))), { relative: 1e-9 }, 'mL');
  }
});

// 18 to 25 drops of water make a millilitre: usual figure in analytical work (read). Acid drops are smaller (derived).
test('water makes 18 to 25 drops per mL at the default tip, 9 M acid more', () => {
  const water = 1 / dropOf(parameterDefaults(), 0);
  expect(water).toBeGreaterThan(18);
  expect(water).toBeLessThan(25);
  expect(1 / dropOf(parameterDefaults(), 9)).toBeGreaterThan(1.15 * water);
});
