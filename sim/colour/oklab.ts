import { encodeChannel, type Rgb } from './srgb.ts';
import { cbrt, power } from '../math/elementary.ts';

// Linear sRGB to cone response and from its cube root to OKLab, with inverses. Ottosson 2020, "A perceptual color space for
// image processing", recalled; checked against a general colour library.
const CONES = [
  [0.4122214708, 0.5363325363, 0.0514459929],
  [0.2119034982, 0.6806995451, 0.1073969566],
  [0.0883024619, 0.2817188376, 0.6299787005],
] as const;
const OKLAB = [
  [0.2104542553, 0.793617785, -0.0040720468],
  [1.9779984951, -2.428592205, 0.4505937099],
  [0.0259040371, 0.7827717662, -0.808675766],
] as const;
const ROOTS = [
  [1, 0.3963377774, 0.2158037573],
  [1, -0.1055613458, -0.0638541728],
  [1, -0.0894841775, -1.291485548],
] as const;
const LINEAR = [
  [4.0767416621, -3.3077115913, 0.2309699292],
  [-1.2684380046, 2.6097574011, -0.3413193965],
  [-0.0041960863, -0.7034186147, 1.707614701],
] as const;

type Matrix = readonly (readonly [number, number, number])[];

/** Lightness, a and b of a colour. */
export function oklabOf(colour: Rgb): number[] {
  return times(OKLAB, times(CONES, colour.map(decodeChannel)).map(cbrt));
}

/** The colour of lightness, a and b; channels outside sRGB are cut. */
export function rgbFromOklab(lab: readonly number[]): Rgb {
  const linear = times(
    LINEAR,
    times(ROOTS, lab).map((root) => power(root, 3)),
  );
  const [r, g, b] = linear.map((channel) => encodeChannel(Math.min(1, Math.max(0, channel))));
  return [r, g, b];
}

function decodeChannel(encoded: number): number {
  return encoded <= 0.04045 ? encoded / 12.92 : power((encoded + 0.055) / 1.055, 2.4);
}

function times(matrix: Matrix, vector: readonly number[]): number[] {
  return matrix.map(([a, b, c]) => a * vector[0] + b * vector[1] + c * vector[2]);
}
