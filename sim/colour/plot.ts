import { type IonId, LINES } from '../terms/ions.ts';
import type { PlotStyle } from '../terms/ions/ion.ts';

// Colours of plotted lines. These name an ion; they do not depict its solution.

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
