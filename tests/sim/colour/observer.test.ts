import { describe, expect, test } from 'vitest';
import { D65, observerAt, tristimulusOf } from '../../../sim/colour/observer.ts';
import { WAVELENGTHS_NM } from '../../../sim/colour/spectra.ts';
import { colourOfSpectrum } from '../../../sim/colour/srgb.ts';
import { CASES } from './cases.ts';
import { cieD65, cieObserver, difference, libraryColour, libraryTristimulus } from './reference.ts';

describe('the fitted observer', () => {
  // Arithmetic of the published formula: Wyman, Sloan and Shirley 2013, JCGT 2(2) 1-11.
  test.each([
    [450, [0.34375, 0.033415, 1.781385]],
    [550, [0.433715, 0.994462, 0.008758]],
    [600, [1.055926, 0.634136, 0.000042]],
  ])('at %i nm equals the published formula', (nm, expected) => {
    observerAt(nm).forEach((value, k) => {
      expect(Math.abs(value - expected[k])).toBeLessThan(1e-6);
    });
  });

  test('stays as close to the CIE table as the fit allows', () => {
    const worst = [0, 0, 0];
    for (let nm = 380; nm <= 780; nm += 5) {
      const cie = cieObserver(nm);
      observerAt(nm).forEach((value, k) => {
        worst[k] = Math.max(worst[k], Math.abs(value - cie[k]));
      });
    }
    // Computed from the CIE 1931 table (5 nm, a second copy than the one used here).
    [0.0138, 0.0073, 0.0221].forEach((expected, k) => {
      expect(Math.abs(worst[k] - expected)).toBeLessThan(0.0005);
    });
  });
});

describe('the CIE tables of the independent library', () => {
  test('hold the printed values at 445 and 555 nm', () => {
    expect(cieObserver(555)[1]).toBe(1); // CIE 1931, read
    const [x, y, z] = cieObserver(445);
    expect([x, y, z].map((v) => Number(v.toFixed(5)))).toEqual([0.34806, 0.0298, 1.7826]); // CIE 1931, read
  });

  test('give the D65 white', () => {
    const [X, Y, Z] = libraryTristimulus(() => 1, 5);
    expect(Math.abs(X / Y - 0.95043)).toBeLessThan(1e-5); // CIE 15, 5 nm sum
    expect(Math.abs(Z / Y - 1.0888)).toBeLessThan(1e-5);
  });

  test('agree with our D65 at every grid point', () => {
    WAVELENGTHS_NM.forEach((nm, i) => {
      expect(Math.abs(D65[i] - cieD65(nm))).toBeLessThan(0.0051);
    });
    expect([D65[0], D65[18], D65[40]]).toEqual([49.9755, 100, 63.3828]); // CIE 15, read
  });
});

describe('tristimulus values', () => {
  test.each(CASES)('of $name equal a separate computation to 0.002', ({ curve, XYZ }) => {
    tristimulusOf(WAVELENGTHS_NM.map(curve)).forEach((value, k) => {
      expect(Math.abs(value - XYZ[k])).toBeLessThan(0.002);
    });
  });

  test.each(CASES)('of $name equal the independent integrator to 0.002', ({ curve }) => {
    const library = libraryTristimulus(curve, 5);
    tristimulusOf(WAVELENGTHS_NM.map(curve)).forEach((value, k) => {
      expect(Math.abs(value - library[k])).toBeLessThan(0.002);
    });
  });

  // The three values below were found by a separate program with another copy of the tables.
  test('lose dE00 0.23 at worst by fit and step together', () => {
    const losses = CASES.map(({ curve }) => difference(colourOfSpectrum(WAVELENGTHS_NM.map(curve)), libraryColour(curve, 5)));
    expect(Math.abs(Math.max(...losses) - 0.23)).toBeLessThan(0.05);
  });

  test.each([
    [10, 0.01, 0.02],
    [20, 0.24, 0.05],
  ])('lose by a %i nm step against 5 nm at worst dE00 %f', (step, expected, tolerance) => {
    const worst = Math.max(...CASES.map(({ curve }) => difference(libraryColour(curve, step), libraryColour(curve, 5))));
    expect(Math.abs(worst - expected)).toBeLessThan(tolerance);
  });
});
