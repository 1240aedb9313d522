import { oklabOf, rgbFromOklab } from './oklab.ts';
import { PLOT_STYLE, type PlotId, type Theme } from './plot.ts';
import { type Rgb, rgbOf } from './srgb.ts';

// Colours of numeric ramps, from the page to the plot colour of an ion.

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
