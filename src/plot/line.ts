import { line as pathOf, symbol, symbolCircle, symbolCross, symbolDiamond, symbolSquare, symbolStar, symbolTriangle, type SymbolType } from 'd3-shape';
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { Scale } from './axis.ts';
import type { Marker, SeriesStyle } from './series.ts';

export interface LineOptions {
  readonly x: Scale;
  readonly y: Scale;
  /** Same length; a value that is not finite, or not positive on a log scale, leaves a gap. */
  readonly xs: ArrayLike<number>;
  readonly ys: ArrayLike<number>;
  readonly style: SeriesStyle;
  /** Where the label stands: at the highest point, or at the last. `none` when labels are drawn elsewhere. */
  readonly labelAt?: 'peak' | 'end' | 'none';
  /** About this many markers along the line. */
  readonly markers?: number;
  /** A forecast is drawn thinner and without markers. */
  readonly forecast?: boolean;
}

/** Area of a marker, px^2: about 7 px across. */
const MARKER_AREA = 44;
const LABEL_GAP = 7;

const SYMBOLS: Readonly<Record<Exclude<Marker, 'none'>, SymbolType>> = {
  circle: symbolCircle,
  square: symbolSquare,
  triangle: symbolTriangle,
  'triangle-down': symbolTriangle,
  diamond: symbolDiamond,
  cross: symbolCross,
  plus: symbolCross,
  star: symbolStar,
};

/** A curve with its dash, markers and a label beside it in text colour. */
export function line(options: LineOptions): SVGTemplateResult {
  const { style, forecast = false } = options;
  return svg`<g class="line">
    <path d=${linePath(options)} fill="none" stroke=${style.colour} stroke-width=${forecast ? style.width * 0.6 : style.width} stroke-dasharray=${style.dash || nothing}></path>
    ${forecast ? nothing : markerPlaces(options).map((place) => marker(options, place))}
    ${options.labelAt === 'none' ? nothing : lineLabel(options)}
  </g>`;
}

/** Path of the curve alone, for a caller that draws it otherwise. */
export function linePath({ x, y, xs, ys }: Pick<LineOptions, 'x' | 'y' | 'xs' | 'ys'>): string {
  const places = Array.from({ length: xs.length }, (_, place) => place);
  return (
    pathOf<number>()
      .digits(2)
      .defined((place) => Number.isFinite(x(at(xs, place))) && Number.isFinite(y(at(ys, place))))
      .x((place) => x(at(xs, place)))
      .y((place) => y(at(ys, place)))(places) ?? ''
  );
}

function markerPlaces({ xs, ys, x, y, style, markers = 8 }: LineOptions): number[] {
  if (style.marker === 'none' || xs.length === 0 || markers <= 0) return [];
  const every = Math.max(1, Math.ceil(xs.length / markers));
  return Array.from({ length: Math.floor((xs.length - 1) / every) + 1 }, (_, count) => count * every).filter(
    (place) => Number.isFinite(x(at(xs, place))) && Number.isFinite(y(at(ys, place))),
  );
}

function marker({ x, y, xs, ys, style }: LineOptions, place: number): SVGTemplateResult {
  if (style.marker === 'none') return svg``;
  return svg`<path d=${markerPath(style.marker)} transform="translate(${x(at(xs, place))} ${y(at(ys, place))})${turned(style.marker)}" fill=${style.colour}></path>`;
}

function lineLabel(options: LineOptions): SVGTemplateResult | typeof nothing {
  const { x, y, xs, ys, style, labelAt = 'peak' } = options;
  const place = labelAt === 'end' ? xs.length - 1 : peak(ys);
  if (place < 0 || !Number.isFinite(y(at(ys, place)))) return nothing;
  return svg`<text class="line-label" fill=${style.text} x=${x(at(xs, place)) + LABEL_GAP} y=${y(at(ys, place)) - (labelAt === 'end' ? 0 : LABEL_GAP)}
    dominant-baseline=${labelAt === 'end' ? 'middle' : 'auto'}>${style.label}</text>`;
}

function peak(ys: ArrayLike<number>): number {
  let best = -1;
  for (let place = 0; place < ys.length; place++) {
    if (Number.isFinite(at(ys, place)) && (best < 0 || at(ys, place) > at(ys, best))) best = place;
  }
  return best;
}

const markerPaths = new Map<Marker, string>();

function markerPath(name: Exclude<Marker, 'none'>): string {
  const known = markerPaths.get(name);
  if (known !== undefined) return known;
  const path = symbol(SYMBOLS[name], MARKER_AREA).digits(2)() ?? '';
  markerPaths.set(name, path);
  return path;
}

function turned(name: Marker): string {
  return name === 'triangle-down' ? ' rotate(180)' : name === 'cross' ? ' rotate(45)' : '';
}

function at(values: ArrayLike<number>, place: number): number {
  return values[place] ?? Number.NaN;
}
