import { svg, type SVGTemplateResult } from 'lit';
import { axis, type Scale } from './axis.ts';
import { seriesStyle, type PlotId } from './series.ts';

export interface RampLegendOptions {
  readonly series: PlotId;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Domain of the quantity; its range is replaced by the place of the legend. */
  readonly scale: Scale;
  readonly title: string;
  readonly unit: string;
  readonly ticks?: number;
}

/** Pieces of the bar; more cannot be told apart. */
const PIECES = 24;
const TITLE_ABOVE = 8;

/**
 * Legend of a streak: the ramp from the page to the colour of the series, with an axis in the unit of the quantity. The mix
 * is straight in OKLab like `streakRamp`, done by CSS so that it follows the theme and prints.
 */
export function rampLegend({ series, left, top, width, height, scale, title, unit, ticks = 4 }: RampLegendOptions): SVGTemplateResult {
  const step = width / PIECES;
  const colour = seriesStyle(series).colour;
  // Each piece reaches under the next one, or the page would show through between them.
  const pieces = Array.from(
    { length: PIECES },
    (_, index) => svg`<rect x=${left + index * step} y=${top} width=${Math.min(2, PIECES - index) * step}
    height=${height} fill=${`color-mix(in oklab, ${colour} ${(100 * index) / (PIECES - 1)}%, var(--paper))`}></rect>`,
  );
  return svg`<g class="ramp">
    <text class="axis-title" x=${left} y=${top - TITLE_ABOVE}>${title}, ${unit}</text>
    ${pieces}<rect class="frame" x=${left} y=${top} width=${width} height=${height} fill="none"></rect>
    ${axis({ scale: scale.copy().range([left, left + width]), side: 'bottom', at: top + height, ticks })}
  </g>`;
}
