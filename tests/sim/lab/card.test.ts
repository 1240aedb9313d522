import { expect, test } from 'vitest';
import { saltOf, setupCard, withValueAt } from '../../../sim/lab/index.ts';
import { shippedJson, sound } from './rig.ts';

const leach = shippedJson('cathode-leach');

// By hand from the procedure: 25 mL to condition, 2 mL to rinse, 24 mL to wash; 1 mL of sample; 30 mL of water; three aliquots.
test('the bottles of a class are what its groups pour, with spare', () => {
  const { bottles } = setupCard(sound(leach), { groups: 8 });
  expect(bottles.map(({ label, each_mL }) => [label, each_mL])).toEqual([
    ['9 M HCl', 3 * 51],
    ['cathode leach in 9 M HCl', 3],
    ['water', 90],
  ]);
  expect(bottles[0]?.class_mL).toBeCloseTo(8 * 153 * 1.25, 9);
  expect(bottles[2]?.class_mL).toBeCloseTo(8 * 90 * 1.2, 9);
});

test('the stock acid and the metals in a bottle are its moles', () => {
  const sample = setupCard(sound(leach), { groups: 8 }).bottles[1];
  const litres = (8 * 3 * 1.2) / 1000;
  expect((sample?.stock_mL ?? 0) * 12.1).toBeCloseTo(litres * 1000 * 9, 9);
  // Standard atomic weights of cobalt and nickel, 58.933 and 58.693 (IUPAC, from memory).
  expect(sample?.metals.map(({ metal_g }) => metal_g)).toEqual([expect.closeTo(litres * 0.18 * 58.933, 9), expect.closeTo(litres * 0.22 * 58.693, 9)]);
});

test('the resin is the volume of the bed, a cylinder, for every column', () => {
  const two = sound(withValueAt(leach, 'class.columns', 2));
  const bed = Math.PI * 0.45 ** 2 * 7;
  expect(setupCard(two, { groups: 5 }).resin_mL).toBeCloseTo(bed, 9);
  expect(setupCard(two, { groups: 5 }).resinClass_mL).toBeCloseTo(5 * 2 * bed * 1.2, 9);
});

test('a procedure that runs the whole day is not counted three times over', () => {
  const [acid] = setupCard(sound(shippedJson('lab-day')), { groups: 1 }).bottles;
  expect(acid?.each_mL).toBeCloseTo(3 * (25 + 40), 9);
});

// Formula masses as tables print them (CRC Handbook, recalled).
test.each([
  ['Co', 'CoCl₂·6H₂O', 237.93],
  ['Ni', 'NiCl₂·6H₂O', 237.69],
  ['Mn', 'MnCl₂·4H₂O', 197.9],
  ['Cu', 'CuCl₂·2H₂O', 170.48],
  ['Fe3', 'FeCl₃·6H₂O', 270.3],
] as const)('%s is weighed as %s of %d g/mol', (ion, formula, molarMass) => {
  expect(saltOf(ion)).toEqual({ formula, molarMass: expect.closeTo(molarMass, 1) });
});

test('the salt in a bottle is its moles, and a metal without a usual salt has none', () => {
  const sample = setupCard(sound(leach), { groups: 8 }).bottles[1];
  const moles = ((8 * 3 * 1.2) / 1000) * 0.18;
  expect(sample?.metals[0]?.salt?.g).toBeCloseTo(moles * 237.93, 3);
  expect(saltOf('Zn')).toBeUndefined();
});

// By hand: 12 groups pour three times 51 mL of acid and 1 mL of sample, 9 mol/L, 16.848 mol; what is titrated once leaves no surplus.
test('waste A is the acid that was poured, and the alkali for it is set out', () => {
  const { waste, supplies, bottles } = setupCard(sound(leach), { groups: 12 });
  const [a] = waste;
  expect(a?.volume_mL).toBeCloseTo(12 * 3 * 52, 9);
  expect(a?.volume_mL).toBeLessThan(bottles.reduce((sum, { class_mL }) => sum + class_mL, 0));
  const alkali = supplies.find(({ name }) => name.endsWith('NaOH for waste A'));
  expect(alkali?.amount).toBeCloseTo((12 * 3 * 52 * 9) / 6, 9);
  expect(a?.rule).toContain(`${alkali?.amount.toFixed(0)} mL of 6 mol/L NaOH`);
});

test('portions of a made-up flask leave a surplus', () => {
  const portions = sound(withValueAt(leach, 'workup.titrations', 3));
  const { waste } = setupCard(portions, { groups: 1, aliquots: 1 });
  // 100 mL flask, three portions of 25 mL.
  expect(waste[0]?.volume_mL).toBeCloseTo(52 + 25, 9);
});
