import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { meanActivity } from '../../../sim/chemistry/acid.ts';
import { exchangeConstant, exchangeFractions, speciation, species } from '../../../sim/chemistry/complexes.ts';
import { EXCHANGE_CONSTANTS, ION_IDS, IONS, type IonId, LIGAND_FIELD } from '../../../sim/terms/ions.ts';
import { closeTo } from '../../exact/asserts.ts';
import { evenly } from '../../exact/even.ts';

const molarity = evenly(0, 13);

function share(ion: IonId, label: string, c: number): number {
  return speciation(ion, c).fractions[species(ion).findIndex((form) => form.label === label)];
}

describe('cobalt(II) in HCl', () => {
  test('is told apart as three species, as Uchikoshi et al. found (J. Solution Chem., abstract, read)', () => {
    expect(species('Co').map(({ label }) => label)).toEqual(['Co²⁺', 'CoCl⁺', 'CoCl₄²⁻']);
    expect(speciation('Co', 9).basis).toBe('read');
  });

  // log b1 = -0.861, log b4 = -7.40 (read) at the mean HCl activity, by a separate program (computed).
  test.each([
    [2, 0.7719, 0.2281, 0],
    [4, 0.4593, 0.5406, 0.0001],
    [6, 0.2013, 0.7933, 0.0054],
    [7, 0.1209, 0.8469, 0.0322],
    [8, 0.0637, 0.7788, 0.1575],
    [9, 0.0231, 0.4843, 0.4926],
    [10, 0.0048, 0.1705, 0.8247],
    [12, 0.0001, 0.0099, 0.99],
  ])('at %d mol/L has shares %d, %d, %d', (c, ...shares) => {
    for (const [i, expected] of shares.entries()) closeTo(species('Co')[i].label, speciation('Co', c).fractions[i], expected, { absolute: 2e-4 });
  });

  test('has constants read that do not drive its uptake: from 6 to 9 mol/L they would raise it 1.9 decades, the recalled curve rises 0.7', () => {
    // Recalled from Kraus and Nelson 1955: log10 D 1.08 at 6 and 1.78 at 9 mol/L. Hence a second set that stands for exchange.
    const anions = (c: number, x: number) => Math.log10(share('Co', 'CoCl₄²⁻', c) * (1 + 4.196 / x));
    closeTo('rise', anions(9, 7.143) - anions(6, 4.258), 1.9, { absolute: 0.1 }, 'decades');
  });
});

// Stepwise log10 constants, k_n = [MCl_n]/([MCl_(n-1)] a), a the mean HCl activity.
test.each([
  ['Cd', 'Cd²⁺', 'CdCl⁺', 1.95, 'Marcus, J. Phys. Chem. 63 (1959) 1000, abstract (read)'],
  ['Cd', 'CdCl⁺', 'CdCl₂', 0.55, 'the same'],
  ['Cd', 'CdCl₂', 'CdCl₃⁻', -0.15, 'the same'],
  ['Cd', 'CdCl₃⁻', 'CdCl₄²⁻', -0.7, 'the same'],
  ['Fe3', 'Fe³⁺', 'FeCl²⁺', 0.62, 'recalled'],
  ['Fe3', 'FeCl²⁺', 'FeCl₂⁺', -0.7, 'Marcus, J. Inorg. Nucl. Chem. 12 (1960) 287, abstract (read), a lower bound'],
  ['Fe3', 'FeCl₂⁺', 'FeCl₃', -1.4, 'the same (read)'],
  ['Fe3', 'FeCl₃', 'FeCl₄⁻', -1.92, 'the same (read)'],
] as const)('%s: %s takes up chloride to %s with log k %d: %s', (ion, from, to, log, _source) => {
  for (const c of [0.5, 4, 9]) closeTo('log k', Math.log10(share(ion, to, c) / share(ion, from, c) / meanActivity(c)), log, { absolute: 1e-9 });
});

describe('species shown', () => {
  test.each(ION_IDS)('of %s carry the charge of the cation less the chlorides', (ion) => {
    for (const { label, charge, ligands } of species(ion)) {
      expect(charge).toBe(IONS[ion].charge - ligands + (label.startsWith('H') ? 1 : 0));
      const written = /([²³]?)([⁺⁻])$/.exec(label);
      expect(written ? (written[2] === '⁺' ? 1 : -1) * ({ '²': 2, '³': 3 }[written[1]] ?? 1) : 0).toBe(charge);
    }
    expect(species(ion)[0].label).toBe(IONS[ion].symbol);
  });

  test('of nickel hold no anion and at most two chlorides (X-ray scattering of strong acid, abstract, read)', () => {
    expect(species('Ni').map(({ label }) => label)).toEqual(['Ni²⁺', 'NiCl⁺', 'NiCl₂']);
    expect(exchangeConstant('Ni')).toBe(0);
    expect(speciation('Ni', 6).source).toContain('X-ray scattering');
    expect(speciation('Cu', 6).source).not.toContain('X-ray scattering');
  });

  test('of copper are labelled as resting on exchange, with the associated acid', () => {
    expect(speciation('Cu', 6).basis).toBe('operational');
    expect(species('Cu').map(({ label }) => label)).toEqual(['Cu²⁺', 'CuCl⁺', 'CuCl₂', 'CuCl₃⁻', 'CuCl₄²⁻', 'HCuCl₄⁻']);
  });

  test('nickel is the bare ion below 3 mol/L and loses it above (spectra of Shchukarev et al. 1962, read; share assumed)', () => {
    expect(share('Ni', 'Ni²⁺', 3)).toBeGreaterThan(0.85);
    expect(share('Ni', 'Ni²⁺', 9)).toBeLessThan(0.2);
  });
});

describe('shares', () => {
  test('of every ion lie between 0 and 1 and add to 1, from water to 13 mol/L', () => {
    fc.assert(
      fc.property(molarity, fc.constantFrom(...ION_IDS), (c, ion) => {
        for (const fractions of [speciation(ion, c).fractions, exchangeFractions(ion, meanActivity(c))]) {
          expect(fractions.every((f) => f >= 0 && f <= 1)).toBe(true);
          expect(fractions.reduce((sum, f) => sum + f, 0)).toBeCloseTo(1, 12);
        }
      }),
      { seed: 5 },
    );
  });

  // Mass action: d(mean ligand number)/d ln a is a covariance of two numbers that rise together; Bjerrum 1941 (recalled).
  test('shift to more chlorides as the acid grows stronger', () => {
    const ligandNumber = (ion: IonId, c: number) => speciation(ion, c).fractions.reduce((sum, f, i) => sum + f * species(ion)[i].ligands, 0);
    for (const ion of ION_IDS) {
      for (let c = 0; c < 13; c += 0.5) expect(ligandNumber(ion, c + 0.5)).toBeGreaterThan(ligandNumber(ion, c));
    }
  });

  test('are the bare cation alone in water', () => {
    for (const ion of ION_IDS) expect(speciation(ion, 0).fractions).toEqual(species(ion).map((_, i) => (i === 0 ? 1 : 0)));
  });
});

describe('constants', () => {
  test('agree with the ions on the charges', () => {
    for (const ion of ION_IDS) {
      const { charge, anionCharge } = IONS[ion];
      expect(anionCharge).toBe(EXCHANGE_CONSTANTS[ion].logK === null ? 0 : 4 - charge);
    }
  });

  /** High-spin crystal-field energy over the octahedral splitting: t2 -0.4, e +0.6 in the octahedron; the tetrahedron is 4/9 of it, turned round. */
  function preferenceOverSplitting(dElectrons: number): number {
    const perShell = dElectrons % 5;
    const octahedral = -0.4 * Math.min(perShell, 3) + 0.6 * Math.max(perShell - 3, 0);
    const tetrahedral = (4 / 9) * (-0.6 * Math.min(perShell, 2) + 0.4 * Math.max(perShell - 2, 0));
    return tetrahedral - octahedral;
  }

  // Splitting of the aquo ions, cm⁻¹ (recalled, spectra in inorganic textbooks); 1 cm⁻¹ is 0.0119627 kJ/mol (CODATA).
  test.each([
    ['Ni', 8500],
    ['Co', 9300],
    ['Cu', 12600],
    ['Fe2', 10400],
    ['Mn', 7800],
    ['Fe3', 13700],
    ['Zn', 0],
    ['Cd', 0],
  ] as const)('of the ligand field of %s follow from counting d electrons at a splitting of %d cm⁻¹', (ion, splitting) => {
    const { dElectrons, octahedralPreference_kJ_mol } = LIGAND_FIELD[ion];
    closeTo('preference', octahedralPreference_kJ_mol, preferenceOverSplitting(dElectrons) * splitting * 0.0119627, { absolute: 3 }, 'kJ/mol');
  });

  test('give nickel the strongest hold on six neighbours', () => {
    const others = ION_IDS.filter((ion) => ion !== 'Ni').map((ion) => LIGAND_FIELD[ion].octahedralPreference_kJ_mol);
    expect(LIGAND_FIELD.Ni.octahedralPreference_kJ_mol).toBeGreaterThan(Math.max(...others));
  });
});
