import { expect, test } from 'vitest';
import { setupCard, withValueAt } from '../../../sim/lab/index.ts';
import { shippedJson, sound } from './rig.ts';

const leach = shippedJson('cathode-leach');

// By hand from the procedure: 25 mL to condition, 2 mL to rinse, 24 mL to wash; 1 mL of sample; 30 mL of water; three aliquots.
test('the bottles of a class are what its groups pour, with spare', () => {
  const { bottles } = setupCard(sound(leach), 8);
  expect(bottles.map(({ label, each_mL }) => [label, each_mL])).toEqual([
    ['9 M HCl', 3 * 51],
    ['cathode leach in 9 M HCl', 3],
    ['water', 90],
  ]);
  expect(bottles[0]?.class_mL).toBeCloseTo(8 * 153 * 1.25, 9);
  expect(bottles[2]?.class_mL).toBeCloseTo(8 * 90 * 1.2, 9);
});

test('the stock acid and the metals in a bottle are its moles', () => {
  const sample = setupCard(sound(leach), 8).bottles[1];
  const litres = (8 * 3 * 1.2) / 1000;
  expect((sample?.stock_mL ?? 0) * 12.1).toBeCloseTo(litres * 1000 * 9, 9);
  // Standard atomic weights of cobalt and nickel, 58.933 and 58.693 (IUPAC, from memory).
  expect(sample?.metals.map(({ metal_g }) => metal_g)).toEqual([expect.closeTo(litres * 0.18 * 58.933, 9), expect.closeTo(litres * 0.22 * 58.693, 9)]);
});

test('the resin is the volume of the bed, a cylinder, for every column', () => {
  const two = sound(withValueAt(leach, 'class.columns', 2));
  const bed = Math.PI * 0.45 ** 2 * 7;
  expect(setupCard(two, 5).resin_mL).toBeCloseTo(bed, 9);
  expect(setupCard(two, 5).resinClass_mL).toBeCloseTo(5 * 2 * bed * 1.2, 9);
});

test('a procedure that runs the whole day is not counted three times over', () => {
  const [acid] = setupCard(sound(shippedJson('lab-day')), 1).bottles;
  expect(acid?.each_mL).toBeCloseTo(3 * (25 + 40), 9);
});
