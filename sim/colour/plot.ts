import type { IonId } from '../terms/ions.ts';
import { oklabOf, rgbFromOklab } from './oklab.ts';
import { type Rgb, rgbOf } from './srgb.ts';

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
 * Computed by a search: cobalt in the blue between its band in the glass and its tetrachloro anion, nickel far from both, on the
 * yellow side where its own solution in strong acid lies; lightness spread, contrast at least 3.05:1 on #fff and #0f172a, worst
 * pair of the nine dE00 13 or more under normal, protan, deutan and tritan vision. Dash, marker and width are choices.
 */
export const PLOT_STYLE: Readonly<Record<PlotId, PlotStyle>> = {
  Co: { colour: { light: '#138fd2', dark: '#11a8f7' }, dash: '', marker: 'circle', width: 2.5 },
  Ni: { colour: { light: '#c37d06', dark: '#f7c554' }, dash: '8 4', marker: 'square', width: 2 },
  Mn: { colour: { light: '#763490', dark: '#8d5468' }, dash: '12 3 2 3 2 3', marker: 'triangle-down', width: 2 },
  Cu: { colour: { light: '#316558', dark: '#7e9f7e' }, dash: '10 3 2 3', marker: 'diamond', width: 2 },
  Zn: { colour: { light: '#00080a', dark: '#1f5dd9' }, dash: '4 2', marker: 'cross', width: 2 },
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
