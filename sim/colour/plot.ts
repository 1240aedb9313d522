import { type IonId, LINES } from '../terms/ions.ts';
import type { PlotStyle, Theme } from '../terms/ions/ion.ts';
import { oklabOf, rgbFromOklab } from './oklab.ts';
import { type Rgb, rgbOf } from './srgb.ts';

// Colours of plotted lines and of numeric ramps. These name an ion; they do not depict its solution.

export type { Marker, Theme } from '../terms/ions/ion.ts';

/** A plotted quantity. */
export type PlotId = IonId | 'HCl';

export const PLOT_STYLE: Readonly<Record<PlotId, PlotStyle>> = {
  ...LINES,
  HCl: {
    colour: { light: '#8d8c90', dark: '#ecebef' },
    label: { light: '#5c5b60', dark: '#ecebef' },
    dash: '14 6',
    marker: 'none',
    width: 1.25,
  },
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
