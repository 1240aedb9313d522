// Outside references for the colour tests: CIE tables and integrator of jscolorengine, colour differences of culori.
import { differenceCiede2000, lab65, rgb, type Rgb as CuloriRgb } from 'culori';
import Spectral from 'jscolorengine/src/Spectral.js';
import type { Tristimulus } from '../../../sim/colour/observer.ts';
import { layerReflectance, resinAbsorption, sphereEfficiency } from '../../../sim/colour/scatter.ts';
import { molarAbsorptivity, type SpeciesId } from '../../../sim/colour/spectra.ts';
import { encodeChannel, fitInto, linearOf, type Rgb } from '../../../sim/colour/srgb.ts';

type Concentrations = Partial<Record<SpeciesId, number>>;
/** A spectrum as a function of wavelength, nm. */
export type Curve = (nm: number) => number;

const spectral = new Spectral();
const observer = spectral.getObserver('2');
const d65 = spectral.getIlluminant('D65');
const ciede2000 = differenceCiede2000();

/** CIE 1931 colour-matching functions at a whole wavelength, from the library's 1 nm table. */
export function cieObserver(nm: number): Tristimulus {
  const i = (nm - observer.startnm) / observer.step;
  return [observer.X[i], observer.Y[i], observer.Z[i]];
}

export function cieD65(nm: number): number {
  return d65.data[(nm - d65.startnm) / d65.step];
}

/** XYZ by the library's integrator, CIE table and D65, 380 to 780 nm in this step. */
export function libraryTristimulus(curve: Curve, step: number): Tristimulus {
  const data = Array.from({ length: 400 / step + 1 }, (_, i) => curve(380 + step * i));
  const { X, Y, Z } = spectral.calculateXYZ(spectral.toSpectral(380, 780, data, step), d65, observer);
  return [X, Y, Z];
}

/** Screen colour from the library's XYZ, scaled channel by channel so that white is white. */
export function libraryColour(curve: Curve, step = 5): Rgb {
  const white = libraryTristimulus(() => 1, step);
  const sample = libraryTristimulus(curve, step);
  const target: Tristimulus = [0.3127 / 0.329, 1, 0.3583 / 0.329];
  const [X, Y, Z] = sample.map((value, k) => (value / white[k]) * target[k]);
  const channels = Float64Array.from(linearOf([X, Y, Z]));
  fitInto(channels);
  const [r, g, b] = channels;
  return [encodeChannel(r), encodeChannel(g), encodeChannel(b)];
}

/** CIEDE2000 between two colours, each a hex string or three channels. */
export function difference(one: string | Rgb, two: string | Rgb): number {
  return ciede2000(culoriOf(one), culoriOf(two));
}

/** CIE L*a*b* under D65. */
export function labOf(colour: Rgb): { l: number; a: number; b: number } {
  const { l, a, b } = lab65(culoriOf(colour));
  return { l, a, b };
}

/** Wavelength (nm) of the spectral colour in line with white and sample, CIE 1931 table. */
export function dominantWavelength(curve: Curve): number {
  const [wx, wy] = chromaticity(libraryTristimulus(() => 1, 5));
  const [x, y] = chromaticity(libraryTristimulus(curve, 5));
  const angle = Math.atan2(y - wy, x - wx);
  let best = { nm: 0, miss: Number.POSITIVE_INFINITY };
  for (let nm = 420; nm <= 680; nm++) {
    const [lx, ly] = chromaticity(cieObserver(nm));
    const turn = Math.atan2(ly - wy, lx - wx) - angle;
    const miss = Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn)));
    if (miss < best.miss) best = { nm, miss };
  }
  return best.nm;
}

/** Reflectance of a bed of 200 um beads, porosity 0.38, behind glass, straight from the formulas. */
export function bedCurve(beads: Concentrations, tintPerCm: number): Curve {
  return (nm) => {
    const tau = (napierian(beads, nm) + resinAbsorption(tintPerCm, nm)) * 0.02;
    return 0.02 + 0.98 * layerReflectance(2 * ((1.5 * 0.62) / 0.02) * sphereEfficiency(tau), 5, 1);
  };
}

/** Transmittance of a cuvette. */
export function slabCurve(amounts: Concentrations, pathCm: number): Curve {
  return (nm) => Math.exp(-napierian(amounts, nm) * pathCm);
}

/** A round vessel before a 0.92 card with 1 % haze; 200 chords. */
export function tubeCurve(amounts: Concentrations, diameterCm: number): Curve {
  return (nm) => {
    let sum = 0;
    for (let i = 0; i < 200; i++) sum += Math.exp(-napierian(amounts, nm) * diameterCm * Math.sqrt(1 - ((i + 0.5) / 200) ** 2));
    return 0.01 + 0.99 * 0.92 * (sum / 200);
  };
}

function napierian(amounts: Concentrations, nm: number): number {
  let sum = 0;
  for (const [id, amount] of Object.entries(amounts)) sum += Math.LN10 * molarAbsorptivity(id as SpeciesId, nm) * amount;
  return sum;
}

function chromaticity([X, Y, Z]: Tristimulus): [number, number] {
  return [X / (X + Y + Z), Y / (X + Y + Z)];
}

function culoriOf(colour: string | Rgb): CuloriRgb {
  if (typeof colour !== 'string') return { mode: 'rgb', r: colour[0], g: colour[1], b: colour[2] };
  const parsed = rgb(colour);
  if (parsed === undefined) throw new Error(`colour: expected #rrggbb, received ${colour}`);
  return parsed;
}
