import { type Marker, PLOT_STYLE, type PlotId } from '../../sim/colour/index.ts';
import { IONS } from '../../sim/terms/ions.ts';

// How each component is drawn in every plot: colour, dash and marker together, so that colour is never the only sign.

export interface SeriesStyle {
  /** For direct labels and legends. */
  readonly label: string;
  /** Line, at least 3:1 on the page; follows the theme. */
  readonly colour: string;
  /** Label text, at least 4.5:1 on the page; follows the theme. */
  readonly text: string;
  /** Value of stroke-dasharray; empty for a solid line. */
  readonly dash: string;
  /** Stroke, px. */
  readonly width: number;
  readonly marker: Marker;
}

export function seriesStyle(id: PlotId): SeriesStyle {
  const { dash, width, marker } = PLOT_STYLE[id];
  return { label: id === 'HCl' ? 'HCl' : IONS[id].symbol, colour: `var(--line-${id})`, text: `var(--text-${id})`, dash, width, marker };
}

export type { Marker, PlotId };
