import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addSorbedInto, speciesInto } from '../../../sim/colour/mixture.ts';
import { ION_IDS } from '../../../sim/terms/ions.ts';
import { SPECIES_IDS, type SpeciesId } from '../../../sim/colour/spectra.ts';
import { evenly } from '../../exact/even.ts';

const at = (amounts: Float64Array, id: SpeciesId): number => amounts[SPECIES_IDS.indexOf(id)];

function dissolved(ion: (typeof ION_IDS)[number], HCl_M: number): Float64Array {
  const amounts = new Float64Array(SPECIES_IDS.length);
  speciesInto(amounts, { HCl_M, ions: { [ion]: 1 } });
  return amounts;
}

function sorbed(ion: (typeof ION_IDS)[number], HCl_M: number): Float64Array {
  const amounts = new Float64Array(SPECIES_IDS.length);
  addSorbedInto(amounts, ion, HCl_M, 1);
  return amounts;
}

/** Mean activity of HCl, mol/kg: density fit to the CRC table at 20 C, activity coefficient equation for 25 C, both read. */
function activity(c: number): number {
  const density = 0.99821 + 0.017538 * c + 0.0001582 * c ** 1.5 - 0.0002198 * c * c;
  const m = c / (density - 0.036461 * c);
  const s = Math.sqrt(m);
  return m * 10 ** ((-0.5115 * s) / (1 + 1.471 * s) + 0.1069 * m + 7.412e-3 * m ** 2 - 6.637e-4 * m ** 3 + 1.586e-5 * m ** 4);
}

describe('cobalt in hydrochloric acid', () => {
  // Closed form of three species: log b1 = -0.861, log b4 = -7.40 (Uchikoshi 2018, J. Solution Chem., read).
  test.each([0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])('at %f M has the shares of the stability constants', (c) => {
    const a = activity(c);
    const [one, four] = [10 ** -0.861 * a, 10 ** -7.4 * a ** 4];
    const total = 1 + one + four;
    const amounts = dissolved('Co', c);
    expect(Math.abs(at(amounts, 'CoAquo') - 1 / total)).toBeLessThan(0.003);
    expect(Math.abs(at(amounts, 'CoCl') - one / total)).toBeLessThan(0.003);
    expect(Math.abs(at(amounts, 'CoCl4') - four / total)).toBeLessThan(0.003);
  });

  test('forms more tetrachloro complex the stronger the acid', () => {
    let before = -1;
    for (let c = 0; c <= 13; c += 0.05) {
      const now = at(dissolved('Co', c), 'CoCl4');
      expect(now).toBeGreaterThanOrEqual(before);
      before = now;
    }
  });
});

describe('nickel in hydrochloric acid', () => {
  test('is the aquo ion up to 3 M and shifted at 9 M', () => {
    expect(at(dissolved('Ni', 3), 'NiAquo')).toBe(1); // Shchukarev et al. 1962, read
    expect(at(dissolved('Ni', 9), 'NiChloro')).toBe(1);
    expect(at(dissolved('Ni', 6), 'NiAquo')).toBeCloseTo(0.5, 12);
  });
});

test('no metal is counted more than once, dissolved or sorbed', () => {
  fc.assert(
    fc.property(fc.constantFrom(...ION_IDS), evenly(0, 14), (ion, c) => {
      for (const amounts of [dissolved(ion, c), sorbed(ion, c)]) {
        expect(Math.min(...amounts)).toBeGreaterThanOrEqual(0);
        expect(amounts.reduce((sum, value) => sum + value, 0)).toBeLessThan(1.001);
      }
    }),
    { seed: 11, numRuns: 300 },
  );
});

describe('sorbed metal', () => {
  test('is the tetrachloro anion in strong acid, free cation in water', () => {
    expect(at(sorbed('Co', 9), 'CoCl4')).toBeGreaterThan(0.97);
    expect(at(sorbed('Co', 0), 'CoAquo')).toBe(1);
    expect(at(sorbed('Fe3', 9), 'FeChloro')).toBeGreaterThan(0.99);
    expect(at(sorbed('Cu', 6), 'CuCl4')).toBeGreaterThan(0.9);
  });

  test('of nickel is never an anion', () => {
    const amounts = sorbed('Ni', 9);
    expect(at(amounts, 'NiChloro')).toBe(1);
  });
});

test('extra complexes are added as they are', () => {
  const amounts = new Float64Array(SPECIES_IDS.length);
  speciesInto(amounts, { HCl_M: 0, ions: { Co: 0.1 }, extra: { CoNCS: 0.02, CoY: 0.03 } });
  expect([at(amounts, 'CoAquo'), at(amounts, 'CoNCS'), at(amounts, 'CoY'), at(amounts, 'NiY')]).toEqual([0.1, 0.02, 0.03, 0]);
});
