import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type BedCell, bedColour, bedPainter } from '../../../sim/colour/bed.ts';
import { layerReflectance, RESIN_TINTS_PER_CM, sphereEfficiency } from '../../../sim/colour/scatter.ts';
import type { IonId } from '../../../sim/terms/ions.ts';
import { bedCurve, difference, dominantWavelength, labOf, libraryColour } from './reference.ts';
import type { SpeciesId } from '../../../sim/colour/spectra.ts';
import { evenly } from '../../exact/even.ts';

const { colourless, pale, amber } = RESIN_TINTS_PER_CM;
const POROSITY = 0.38;
/** The bed that the stored hex values were computed for. */
const BED = { porosity: POROSITY, beadUm: 200 };
/** A bed whose beads hold this many mol per litre of bead. */
const beads = (amounts: Partial<Record<IonId, number>>, HCl_M = 9): BedCell => ({
  HCl_M,
  pore: {},
  resin: Object.fromEntries(Object.entries(amounts).map(([ion, amount]) => [ion, amount * (1 - POROSITY)])),
});

describe('a bead', () => {
  // 1 - 2[1 - (1+t) e^-t]/t^2, Duysens 1956, recalled; numbers computed.
  test.each([
    [0.01, 0.006642],
    [0.1, 0.064232],
    [1, 0.471518],
    [3, 0.822033],
    [10, 0.98001],
  ])('of optical thickness %f absorbs %f', (tau, expected) => {
    expect(Math.abs(sphereEfficiency(tau) - expected)).toBeLessThan(1e-6);
  });

  test('that is thin absorbs two thirds of its thickness', () => {
    expect(Math.abs(sphereEfficiency(1e-3) / (2e-3 / 3) - 1)).toBeLessThan(5e-4); // mean chord of a sphere is 2d/3
  });

  test('absorbs what a numerical integral over its chords gives', () => {
    // Independent of the closed form: mean of 1 - exp(-tau sqrt(1-b^2)) over the disc, b the impact parameter.
    for (const tau of [0.2, 1, 4]) {
      let sum = 0;
      const n = 20000;
      for (let i = 0; i < n; i++) sum += 1 - Math.exp(-tau * Math.sqrt(1 - (i + 0.5) / n));
      expect(sphereEfficiency(tau)).toBeCloseTo(sum / n, 5);
    }
  });
});

describe('a scattering layer', () => {
  // Kubelka-Munk function (1-R)^2/2R = K/S, read; R computed.
  test.each([
    [0.01, 0.868226],
    [0.1, 0.641742],
    [1, 0.267949],
    [10, 0.045549],
  ])('that is thick, K/S %f, reflects %f', (ratio, expected) => {
    const R = layerReflectance(5 * ratio, 5, 200);
    expect(Math.abs(R - expected)).toBeLessThan(1e-6);
    expect(Math.abs((1 - R) ** 2 / (2 * R) - ratio)).toBeLessThan(1e-9);
  });

  test('without absorption over black reflects SX/(1+SX)', () => {
    expect(layerReflectance(0, 5, 1)).toBeCloseTo(5 / 6, 9); // standard limit, recalled
  });

  test('with almost no absorption joins that limit smoothly', () => {
    expect(layerReflectance(1e-9, 5, 1)).toBeCloseTo(5 / 6, 6);
  });
});

// Hex values computed by a separate program from the CIE table at 5 nm.
describe('the bed has the computed colour', () => {
  test.each<[string, BedCell, number, string]>([
    ['colourless resin', beads({}), colourless, '#e7e7e7'],
    ['pale resin', beads({}), pale, '#e7d3a1'],
    ['amber resin', beads({}), amber, '#dbb16e'],
    ['amber, Co 0.005 M', beads({ Co: 0.005 }), amber, '#95ad71'],
    ['amber, Co 0.02 M', beads({ Co: 0.02 }), amber, '#5ba274'],
    ['amber, Co 0.1 M', beads({ Co: 0.1 }), amber, '#008676'],
    ['amber, Co 0.4 M', beads({ Co: 0.4 }), amber, '#006772'],
    ['pale, Co 0.02 M', beads({ Co: 0.02 }), pale, '#3eb8a5'],
    ['pale, Co 0.1 M', beads({ Co: 0.1 }), pale, '#00909d'],
    ['pale, Co 0.4 M', beads({ Co: 0.4 }), pale, '#006a8c'],
    ['colourless, Co 0.02 M', beads({ Co: 0.02 }), colourless, '#13c2e2'],
    ['colourless, Co 0.1 M', beads({ Co: 0.1 }), colourless, '#0094c2'],
    ['colourless, Co 0.4 M', beads({ Co: 0.4 }), colourless, '#006ca1'],
    ['amber, Ni 0.05 M between the beads', { HCl_M: 9, pore: { Ni: 0.05 }, resin: {} }, amber, '#d9b16d'],
    ['amber, Ni 0.3 M between the beads', { HCl_M: 9, pore: { Ni: 0.3 }, resin: {} }, amber, '#d1b269'],
    ['amber, Fe(III) 0.05 M', beads({ Fe3: 0.05 }), amber, '#deab42'],
    ['amber, Cu 0.05 M', beads({ Cu: 0.05 }), amber, '#c3a135'],
    ['amber, Zn 0.3 M', beads({ Zn: 0.3 }), amber, '#dbb16e'],
  ])('%s', (_, cell, tint, hex) => {
    expect(difference(bedColour(cell, tint, BED), hex)).toBeLessThan(1.5);
  });

  test.each<[Partial<Record<SpeciesId, number>>, BedCell, number]>([
    [{}, beads({}), amber],
    [{ CoCl4: 0.1 }, beads({ Co: 0.1 }), amber],
    [{ CoCl4: 0.1 }, beads({ Co: 0.1 }), colourless],
    [{ CoCl4: 0.4 }, beads({ Co: 0.4 }), pale],
    [{ FeChloro: 0.05 }, beads({ Fe3: 0.05 }), amber],
  ])('%o, within dE00 0.6 of the independent integrator', (species, cell, tint) => {
    expect(difference(bedColour(cell, tint, BED), libraryColour(bedCurve(species, tint)))).toBeLessThan(0.6);
  });
});

// Regression of the model, not truth: computed by a separate program.
describe('dominant wavelength', () => {
  test.each([
    [0, 580],
    [0.02, 533],
    [0.1, 497],
    [0.4, 488],
  ])('of an amber bed with Co %f M is %i nm', (amount, nm) => {
    expect(Math.abs(dominantWavelength(bedCurve({ CoCl4: amount }, amber)) - nm)).toBeLessThanOrEqual(5);
  });

  test.each([
    [0, 484],
    [2, 487],
    [5, 491],
    [10, 495],
    [25, 506],
    [50, 527],
    [80, 543],
  ])('with Co 0.05 M and a tint of %i per cm is %i nm', (tint, nm) => {
    expect(Math.abs(dominantWavelength(bedCurve({ CoCl4: 0.05 }, tint)) - nm)).toBeLessThanOrEqual(4);
  });
});

describe('the bed', () => {
  test('turns green, then blue-green, as cobalt is taken up', () => {
    const hues = [0, 0.02, 0.1, 0.4].map((amount) => labOf(bedColour(beads({ Co: amount }), amber, BED)));
    expect(hues[0].a).toBeGreaterThan(0);
    expect(hues[1].a).toBeLessThan(-20);
    expect(hues[1].b).toBeGreaterThan(10);
    expect(hues[3].b).toBeLessThan(-5);
  });

  test('loses its green when water has freed the cobalt', () => {
    const held = labOf(bedColour({ HCl_M: 9, pore: {}, resin: { Co: 0.02 } }, amber, BED));
    const freed = labOf(bedColour({ HCl_M: 0.2, pore: { Co: 0.05 }, resin: { Co: 0.02 } }, amber, BED));
    expect(held.a).toBeLessThan(-20);
    expect(freed.a).toBeGreaterThan(5);
  });

  test('looks paler when air fills it', () => {
    const lightness = (gasSaturation: number): number => labOf(bedColour({ ...beads({ Co: 0.1 }), gasSaturation }, amber, BED)).l;
    expect(lightness(0.5)).toBeGreaterThan(lightness(0) + 3);
    expect(lightness(1)).toBeGreaterThan(lightness(0.5) + 1);
  });

  test('of finer beads is lighter at the same loading', () => {
    const lightness = (beadUm: number): number => labOf(bedColour(beads({ Co: 0.1 }), amber, { ...BED, beadUm })).l;
    expect(lightness(50)).toBeGreaterThan(lightness(200));
    expect(lightness(200)).toBeGreaterThan(lightness(400));
  });

  test('never gets brighter by more metal', () => {
    const amount = evenly(0, 0.5);
    fc.assert(
      fc.property(
        fc.constantFrom<IonId>('Co', 'Ni', 'Cu', 'Fe3', 'Mn', 'Zn', 'Fe2', 'Cd'),
        evenly(0, 12),
        amount,
        amount,
        fc.boolean(),
        (ion, HCl_M, some, more, inBeads) => {
          const cell = (q: number): BedCell => (inBeads ? { HCl_M, pore: {}, resin: { [ion]: q } } : { HCl_M, pore: { [ion]: q }, resin: {} });
          expect(luminance(bedColour(cell(some + more), amber, BED))).toBeLessThanOrEqual(luminance(bedColour(cell(some), amber, BED)) + 1e-9);
        },
      ),
      { seed: 31, numRuns: 300 },
    );
  });
});

describe('the painter', () => {
  const ions: readonly IonId[] = ['Co', 'Ni', 'Fe3'];

  test('agrees with the single-cell colour to one step of 255', () => {
    const painter = bedPainter(ions, amber, { ...BED, beadUm: 125 });
    const out = new Uint8Array(7);
    const amount = fc.oneof(fc.constant(0), evenly(0, 0.5));
    fc.assert(
      fc.property(evenly(0, 12), fc.array(amount, { minLength: 6, maxLength: 6 }), fc.constantFrom(0, 0, 0.4, 1), (HCl_M, v, gasSaturation) => {
        // Component-major arrays, as the bed keeps them: two cells, the second is painted.
        const pore = [9, v[0], 9, v[1], 9, v[2]];
        const resin = [9, v[3], 9, v[4], 9, v[5]];
        painter.colourInto(out, 4, HCl_M, pore, 1, resin, 1, gasSaturation, 2);
        const exact = bedColour({ HCl_M, pore: { Co: v[0], Ni: v[1], Fe3: v[2] }, resin: { Co: v[3], Ni: v[4], Fe3: v[5] }, gasSaturation }, amber, {
          ...BED,
          beadUm: 125,
        });
        exact.forEach((channel, k) => {
          expect(Math.abs(out[4 + k] - 255 * channel)).toBeLessThan(1.01);
        });
        expect([...out.slice(0, 4)]).toEqual([0, 0, 0, 0]);
      }),
      { seed: 41, numRuns: 300 },
    );
  });

  test('stays within dE00 0.5 of the exact colour over a bead loading sweep', () => {
    const painter = bedPainter(['Co'], amber, BED);
    const out = new Uint8Array(3);
    for (let q = 0; q < 0.4; q += 0.003) {
      painter.colourInto(out, 0, 9, [0.01], 0, [q], 0);
      const painted: [number, number, number] = [out[0] / 255, out[1] / 255, out[2] / 255];
      expect(difference(painted, bedColour({ HCl_M: 9, pore: { Co: 0.01 }, resin: { Co: q } }, amber, BED))).toBeLessThan(0.5);
    }
  });
});

/** Relative luminance, WCAG 2.2. */
function luminance(colour: readonly number[]): number {
  const linear = colour.map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
  return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
}
