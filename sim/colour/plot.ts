import type { IonId } from '../terms/ions.ts';
import { encodeChannel, type Rgb, rgbOf } from './srgb.ts';
import { cbrt, power } from '../math/elementary.ts';

// Colours of plotted lines and of numeric ramps. These name an ion; they do not depict its solution.

export type Theme = 'light' | 'dark';

/** A plotted quantity. */
export type PlotId = IonId | 'HCl';

export type Marker = 'circle' | 'square' | 'triangle' | 'diamond' | 'cross' | 'triangle-down' | 'plus' | 'star' | 'none';

export interface PlotStyle {
  /** Hex colour on the page of each theme, at least 3:1 against it (WCAG 2.2, 1.4.11, read). */
  readonly colour: Readonly<Record<Theme, string>>;
  /** SVG stroke-dasharray; empty is solid. No two are alike. */
  readonly dash: string;
  readonly marker: Marker;
  /** Stroke width, px. */
  readonly width: number;
}

/**
 * Computed by a search: hue near the element's own where possible, lightness spread, contrast at least 3.05:1 on #fff and
 * #0f172a, worst pair of the nine dE00 13 or more under normal, protan, deutan and tritan vision (19 without Fe2 and Cd).
 * Dash, marker and width are choices.
 */
export const PLOT_STYLE: Readonly<Record<PlotId, PlotStyle>> = {
  Co: { colour: { light: '#537dff', dark: '#1f5dd9' }, dash: '', marker: 'circle', width: 2.5 },
  Ni: { colour: { light: '#316558', dark: '#7e9f7e' }, dash: '8 4', marker: 'square', width: 2 },
  Mn: { colour: { light: '#763490', dark: '#8d5468' }, dash: '12 3 2 3 2 3', marker: 'triangle-down', width: 2 },
  Cu: { colour: { light: '#c37d06', dark: '#f7c554' }, dash: '10 3 2 3', marker: 'diamond', width: 2 },
  Zn: { colour: { light: '#00080a', dark: '#1acbf7' }, dash: '4 2', marker: 'cross', width: 2 },
  Fe3: { colour: { light: '#8d280c', dark: '#ed3b04' }, dash: '2 3', marker: 'triangle', width: 2 },
  Fe2: { colour: { light: '#749868', dark: '#c3eab6' }, dash: '3 6', marker: 'plus', width: 2.5 },
  Cd: { colour: { light: '#7f652e', dark: '#b2912e' }, dash: '6 3 6 3 2 3', marker: 'star', width: 2 },
  HCl: { colour: { light: '#8d8c90', dark: '#ecebef' }, dash: '14 6', marker: 'none', width: 1.25 },
};

/** Page colour the ramps start from. */
export const PLOT_PAGE: Readonly<Record<Theme, string>> = { light: '#ffffff', dark: '#0f172a' };

/**
 * Numeric ramp of one quantity, t from 0 (the page) to 1 (its plot colour): straight in OKLab, so lightness runs one way only
 * and equal steps look about equal. Values outside 0 to 1 take the nearer end.
 */
export function streakRamp(id: PlotId, theme: Theme, t: number, page: string = PLOT_PAGE[theme]): Rgb {
  const from = oklabOf(rgbOf(page));
  const to = oklabOf(rgbOf(PLOT_STYLE[id].colour[theme]));
  const share = Math.min(1, Math.max(0, t));
  return rgbFromOklab(from.map((value, k) => value + share * (to[k] - value)));
}

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

function oklabOf(colour: Rgb): number[] {
  return times(OKLAB, times(CONES, colour.map(decodeChannel)).map(cbrt));
}

function rgbFromOklab(lab: readonly number[]): Rgb {
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
