import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { absorptionOf, flatTransmittance, liquidColour, roundTransmittance, vesselStops } from '../../../sim/colour/liquid.ts';
import type { ExtraId, Solution } from '../../../sim/colour/mixture.ts';
import { ION_IDS, type IonId } from '../../../sim/terms/ions.ts';
import { hexOf } from '../../../sim/colour/srgb.ts';
import type { SpeciesId } from '../../../sim/colour/spectra.ts';
import { difference, labOf, libraryColour, tubeCurve } from './reference.ts';
import { evenly } from '../../exact/even.ts';

const BLANK = liquidColour({ HCl_M: 9, ions: {} }, 1.5);
const water = (ions: Solution['ions'], extra: Solution['extra'] = {}): Solution => ({ HCl_M: 0, ions, extra });
const acid = (ions: Solution['ions']): Solution => ({ HCl_M: 9, ions });

// Hex values computed by a separate program from the CIE table: round vessel, white card 0.92, haze 1 %.
describe('a solution in a round vessel has the computed colour', () => {
  test.each<[string, Solution, number, string]>([
    ['Ni 0.05 M, 9 M HCl', acid({ Ni: 0.05 }), 1.5, '#eaf9c9'],
    ['Ni 0.3 M, 9 M HCl', acid({ Ni: 0.3 }), 1.5, '#c4fa64'],
    ['Co 0.01 M', water({ Co: 0.01 }), 1.5, '#fbedf0'],
    ['Co 0.01 M, 5 cm', water({ Co: 0.01 }), 5, '#ffdbe3'],
    ['Co 0.05 M', water({ Co: 0.05 }), 1.5, '#ffcfdb'],
    ['Co 0.1 M', water({ Co: 0.1 }), 1.5, '#ffb2c4'],
    ['Ni 0.02 M', water({ Ni: 0.02 }), 1.5, '#eff6f2'],
    ['Ni 0.02 M, 5 cm', water({ Ni: 0.02 }), 5, '#e1f7e9'],
    ['Ni 0.1 M', water({ Ni: 0.1 }), 1.5, '#d7f8e4'],
    ['Ni 0.5 M', water({ Ni: 0.5 }), 1.5, '#76f7c1'],
    ['Co thiocyanate 1 mM, 5 cm', water({}, { CoNCS: 1e-3 }), 5, '#007ad2'],
    ['thiocyanate 0.1 mM, CoY 0.9 mM, 5 cm', water({}, { CoNCS: 1e-4, CoY: 9e-4 }), 5, '#7ad3f3'],
    ['thiocyanate 0.01 mM, CoY 0.99 mM, 5 cm', water({}, { CoNCS: 1e-5, CoY: 9.9e-4 }), 5, '#eaeaef'],
    ['CoY 1 mM, 5 cm', water({}, { CoY: 1e-3 }), 5, '#f9edee'],
    ['Co thiocyanate 5 mM, 5 cm', water({}, { CoNCS: 5e-3 }), 5, '#2600de'],
    ['CoY 5 mM, 5 cm', water({}, { CoY: 5e-3 }), 5, '#ffcdd2'],
    ['Cu 0.1 M', water({ Cu: 0.1 }), 1.5, '#bceef7'],
    ['Mn 0.1 M', water({ Mn: 0.1 }), 1.5, '#f6f6f6'],
    ['NiY 0.02 M', water({}, { NiY: 0.02 }), 1.5, '#cddef1'],
    ['NiY 0.1 M', water({}, { NiY: 0.1 }), 1.5, '#579ae0'],
    ['Cu 0.02 M, 12 M HCl', { HCl_M: 12, ions: { Cu: 0.02 } }, 1.5, '#e2c300'],
  ])('%s', (_, solution, pathCm, hex) => {
    expect(difference(liquidColour(solution, pathCm), hex)).toBeLessThan(1);
  });

  test.each<[string, Solution, number, Partial<Record<SpeciesId, number>>]>([
    ['Co 0.1 M', water({ Co: 0.1 }), 1.5, { CoAquo: 0.1 }],
    ['Ni 0.3 M, 9 M HCl', acid({ Ni: 0.3 }), 1.5, { NiChloro: 0.3 }],
    ['Co thiocyanate 1 mM, 5 cm', water({}, { CoNCS: 1e-3 }), 5, { CoNCS: 1e-3 }],
    ['CoY 5 mM, 5 cm', water({}, { CoY: 5e-3 }), 5, { CoY: 5e-3 }],
    ['NiY 0.1 M', water({}, { NiY: 0.1 }), 1.5, { NiY: 0.1 }],
    ['Cu 0.1 M', water({ Cu: 0.1 }), 1.5, { CuAquo: 0.1 }],
  ])('%s, within dE00 0.6 of the independent integrator', (_, solution, pathCm, species) => {
    expect(difference(liquidColour(solution, pathCm), libraryColour(tubeCurve(species, pathCm)))).toBeLessThan(0.6);
  });
});

describe('qualitative chemistry', () => {
  test('cobalt in water is pink', () => expect(labOf(liquidColour(water({ Co: 0.01 }), 1.5)).a).toBeGreaterThan(3));
  test('nickel in water is green', () => expect(labOf(liquidColour(water({ Ni: 0.02 }), 1.5)).a).toBeLessThan(-2));
  test('cobalt thiocyanate is deep blue', () => expect(labOf(liquidColour(water({}, { CoNCS: 1e-3 }), 5)).b).toBeLessThan(-50));
  test('cobalt with EDTA is pink', () => {
    const { a, b } = labOf(liquidColour(water({}, { CoY: 5e-3 }), 5));
    expect(a).toBeGreaterThan(15);
    expect(b).toBeGreaterThan(0);
  });
  test('cobalt turns from pink to blue between 4 and 9 M HCl', () => {
    expect(labOf(liquidColour({ HCl_M: 4, ions: { Co: 0.05 } }, 1.5)).a).toBeGreaterThan(10);
    expect(labOf(liquidColour({ HCl_M: 9, ions: { Co: 0.05 } }, 1.5)).b).toBeLessThan(-30);
  });
  test('nickel in 9 M HCl is yellow-green', () => {
    const { a, b } = labOf(liquidColour(acid({ Ni: 0.1 }), 1.5));
    expect(a).toBeLessThan(-10);
    expect(b).toBeGreaterThan(15);
  });
  test('iron(III) in strong acid is golden yellow', () => expect(labOf(liquidColour(acid({ Fe3: 0.02 }), 1.5)).b).toBeGreaterThan(80));
  test('copper is blue in water and yellow in strong acid', () => {
    expect(labOf(liquidColour(water({ Cu: 0.1 }), 1.5)).b).toBeLessThan(-5);
    expect(labOf(liquidColour(acid({ Cu: 0.02 }), 1.5)).b).toBeGreaterThan(60);
  });
  test.each<IonId>(['Mn', 'Zn', 'Cd', 'Fe2'])('%s is colourless at 0.1 M', (ion) => {
    expect(difference(liquidColour(acid({ [ion]: 0.1 }), 1.5), BLANK)).toBeLessThan(1);
  });
});

describe('Beer-Lambert', () => {
  const EXTRAS: readonly ExtraId[] = ['CoNCS', 'CoY', 'NiY'];

  test('without solute gives the blank in any vessel', () => {
    expect(hexOf(liquidColour({ HCl_M: 3, ions: { Co: 0 } }, 12))).toBe(hexOf(BLANK));
    for (const { colour } of vesselStops({ HCl_M: 3, ions: {} }, 4)) expect(hexOf(colour)).toBe(hexOf(BLANK));
  });

  test('more solute never lets more light through', () => {
    const amount = evenly(0, 1);
    fc.assert(
      fc.property(evenly(0, 13), fc.array(amount, { minLength: 8, maxLength: 8 }), fc.nat(10), amount, (HCl_M, start, which, more) => {
        const ions = Object.fromEntries(ION_IDS.map((id, k) => [id, start[k] + (which === k ? more : 0)]));
        const extra = Object.fromEntries(EXTRAS.map((id, k) => [id, 0.01 + (which === 8 + k ? more : 0)]));
        const less = { HCl_M, ions: Object.fromEntries(ION_IDS.map((id, k) => [id, start[k]])), extra: { CoNCS: 0.01, CoY: 0.01, NiY: 0.01 } };
        const [dense, thin] = [absorptionOf({ HCl_M, ions, extra }), absorptionOf(less)];
        dense.forEach((alpha, i) => {
          expect(flatTransmittance(alpha, 1.5)).toBeLessThanOrEqual(flatTransmittance(thin[i], 1.5) + 1e-12);
          expect(roundTransmittance(alpha, 1.5)).toBeLessThanOrEqual(roundTransmittance(thin[i], 1.5) + 1e-12);
        });
      }),
      { seed: 21, numRuns: 100 },
    );
  });

  test('doubling the path of a cuvette squares its transmittance', () => {
    expect(flatTransmittance(0.7, 3)).toBeCloseTo(flatTransmittance(0.7, 1.5) ** 2, 12);
  });

  // Closed form of the chord average for weak absorption: 1 - alpha d pi/4.
  test('the chord average of a round vessel has its weak-absorption limit', () => {
    expect((1 - roundTransmittance(1e-4, 2)) / 2e-4).toBeCloseTo(Math.PI / 4, 2);
    expect(roundTransmittance(0, 2)).toBe(1);
  });

  test('the chord average stays within 5e-4 of a fine numerical integral', () => {
    for (const alpha of [0.1, 1, 5, 20]) {
      let sum = 0;
      for (let i = 0; i < 20000; i++) sum += Math.exp(-alpha * 1.5 * Math.sqrt(1 - ((i + 0.5) / 20000) ** 2));
      expect(Math.abs(roundTransmittance(alpha, 1.5) - sum / 20000)).toBeLessThan(5e-4);
    }
  });

  test('exaggeration by 5 equals five times the concentration', () => {
    const faint = liquidColour(water({ Ni: 0.02 }), 1.5, { exaggerate: 5 });
    expect(difference(faint, liquidColour(water({ Ni: 0.1 }), 1.5))).toBeLessThan(1e-6);
  });
});

describe('stops across a vessel', () => {
  const stops = vesselStops(water({ Co: 0.1 }), 0.75);

  test('run from wall to wall and mirror', () => {
    expect(stops).toHaveLength(9);
    expect(stops[0].offset).toBe(0);
    expect(stops[8].offset).toBeCloseTo(1, 12);
    stops.forEach((stop, i) => {
      expect(stop.offset + stops[8 - i].offset).toBeCloseTo(1, 12);
      expect(difference(stop.colour, stops[8 - i].colour)).toBeLessThan(1e-6);
    });
  });

  test('are blank at the walls and deepest, the full diameter, in the middle', () => {
    expect(difference(stops[0].colour, BLANK)).toBeLessThan(1e-6);
    expect(difference(stops[4].colour, liquidColour(water({ Co: 0.1 }), 1.5, { shape: 'flat' }))).toBeLessThan(1e-6);
  });
});
