import { POINTS, WAVELENGTHS_NM } from './spectra.ts';
import { exp } from '../math/elementary.ts';

// CIE 1931 2-degree observer under D65: from a spectrum of transmittance or reflectance to XYZ with Y = 1 for white.

/** Tristimulus values, Y = 1 for a perfect white. */
export type Tristimulus = readonly [X: number, Y: number, Z: number];

/**
 * White of sRGB, from its chromaticity x = 0.3127, y = 0.3290: x/y, 1, (1-x-y)/y. IEC 61966-2-1, recalled.
 * A spectrum that is 1 everywhere is normalised to exactly this.
 */
export const WHITE: Tristimulus = [0.3127 / 0.329, 1, (1 - 0.3127 - 0.329) / 0.329];

/** CIE standard illuminant D65, 380 to 780 nm by 10 nm, relative power. CIE 15, read in a copy of the table. */
export const D65: readonly number[] = [
  49.9755, 54.6482, 82.7549, 91.486, 93.4318, 86.6823, 104.865, 117.008, 117.812, 114.861, 115.923, 108.811, 109.354,
  107.802, 104.79, 107.689, 104.405, 104.046, 100, 96.3342, 95.788, 88.6856, 90.0062, 89.5991, 87.6987, 83.2886,
  83.6992, 80.0268, 80.2146, 82.2778, 78.2842, 69.7213, 71.6091, 74.349, 61.604, 69.8856, 75.087, 63.5927, 46.4182,
  66.8054, 63.3828,
];

/** Height, centre (nm), inverse widths below and above the centre (1/nm). */
type Lobe = readonly [height: number, centre_nm: number, below: number, above: number];

/** Multi-lobe fit to the CIE 1931 functions. Wyman, Sloan and Shirley 2013, JCGT 2(2) 1-11, coefficients read. */
const LOBES: readonly (readonly Lobe[])[] = [
  [[0.362, 442, 0.0624, 0.0374], [1.056, 599.8, 0.0264, 0.0323], [-0.065, 501.1, 0.049, 0.0382]],
  [[0.821, 568.8, 0.0213, 0.0247], [0.286, 530.9, 0.0613, 0.0322]],
  [[1.217, 437, 0.0845, 0.0278], [0.681, 459, 0.0385, 0.0725]],
];

/** Colour-matching functions at one wavelength. */
export function observerAt(wavelength_nm: number): Tristimulus {
  const [x, y, z] = LOBES.map((lobes) => lobes.reduce((sum, lobe) => sum + lobeAt(lobe, wavelength_nm), 0));
  return [x, y, z];
}

/** XYZ of a spectrum on the wavelength grid. */
export function tristimulusOf(spectrum: ArrayLike<number>): Tristimulus {
  const [X, Y, Z] = TRISTIMULUS_WEIGHTS.map((weights) => weights.reduce((sum, weight, i) => sum + weight * spectrum[i], 0));
  return [X, Y, Z];
}

function lobeAt([height, centre_nm, below, above]: Lobe, wavelength_nm: number): number {
  const t = (wavelength_nm - centre_nm) * (wavelength_nm < centre_nm ? below : above);
  return height * exp(-0.5 * t * t);
}

/** Weight of each grid point in X, Y and Z. */
export const TRISTIMULUS_WEIGHTS: readonly Float64Array[] = WHITE.map((white, k) => {
  const products = WAVELENGTHS_NM.map((nm, i) => observerAt(nm)[k] * D65[i]);
  const total = products.reduce((sum, product) => sum + product, 0);
  return Float64Array.from({ length: POINTS }, (_, i) => (white * products[i]) / total);
});
