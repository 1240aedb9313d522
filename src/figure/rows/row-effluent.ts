import { scaleLinear, scaleLog } from 'd3-scale';
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { type EffluentCurve, effluentCurve, framesApart } from '../../../sim/history/index.ts';
import { axis, type Scale } from '../../plot/axis.ts';
import { line } from '../../plot/line.ts';
import { crosses, type Point } from '../../plot/box.ts';
import { type PlotId, seriesStyle } from '../../plot/series.ts';
import { onLine } from '../../plot/place-labels.ts';
import { type Drawing, strongestAcid, strongestMetal } from '../drawing.ts';
import { drawnWords, placedWords, type Worded } from './labels.ts';
import { insideOf } from './predictions.ts';

// Third row: what leaves the tip. Metals on the left axis, acid on the right one.

/** Decades shown on log scales. */
const DECADES = 5;
/** Room above the highest value for the labels; on a narrow figure the titles of the axes stand in it, px. */
const HEADROOM = 1.18;
const TITLE_PX = 22;
/** mol/L; as long as nothing stronger leaves, the axis is that of the liquids. */
const LEAST_M = 1e-9;
/** From one marker to the next along the axis, px; none where a curve is as good as zero. */
const MARKER_PX = 14;
const MARKED_FROM = 0.03;

/** One curve of the row, thinned to about a point per px. */
export interface Effluent extends EffluentCurve {
  readonly id: PlotId;
  readonly most: number;
}

export function effluents({ plan, x }: Drawing): Effluent[] {
  const frames = framesApart(plan, x.invert(1) - x.invert(0));
  return [...plan.ions, 'HCl' as const].map((id) => {
    const curve = effluentCurve(plan, id, frames);
    return { ...curve, id, most: curve.ys.reduce((high, value) => Math.max(high, value), 0) };
  });
}

export function effluentScales(
  { scenario, layout: { effluent: row, narrow } }: Drawing,
  curves: readonly Effluent[],
  logScale: boolean,
): { metal: Scale; acid: Scale } {
  const leaving = Math.max(0, ...curves.filter(({ id }) => id !== 'HCl').map((curve) => curve.most));
  const most = leaving > LEAST_M ? leaving : strongestMetal(scenario);
  const acidMost = strongestAcid(scenario);
  const range = [row.bottom, row.top];
  const height = row.bottom - row.top;
  const headroom = narrow ? Math.max(HEADROOM, height / (height - TITLE_PX)) : HEADROOM;
  if (logScale) return { metal: logOf(most, range), acid: logOf(acidMost, range) };
  return {
    metal: scaleLinear()
      .domain([0, most * headroom])
      .range(range),
    acid: scaleLinear()
      .domain([0, acidMost * headroom])
      .range(range),
  };
}

export function effluentRow(drawing: Drawing, curves: readonly Effluent[], logScale: boolean): SVGTemplateResult {
  const {
    layout: { effluent: row, left, right, narrow },
    x,
  } = drawing;
  const { metal, acid } = effluentScales(drawing, curves, logScale);
  const ticks = row.bottom - row.top > 130 ? 4 : 3;
  return svg`<g class="effluent">
    ${axis({ scale: x, side: 'bottom', at: row.bottom, ticks: narrow ? 5 : 10 })}
    ${axis({ scale: inUnit(metal), side: 'left', at: left, ticks, grid: right - left, ...(narrow ? {} : { title: 'metal leaving', unit: unitOf(metal).name }) })}
    ${axis({ scale: acid, side: 'right', at: right, ticks, ...(narrow ? {} : { title: 'HCl leaving', unit: 'mol/L' }) })}
    ${curves.map((curve) => line({ x, y: curve.id === 'HCl' ? acid : metal, xs: curve.xs, ys: shownOn(curve.id === 'HCl' ? acid : metal, curve.ys), style: seriesStyle(curve.id), labelAt: 'none', markers: 0 }))}
    ${curves.map((curve) => markers(drawing, curve, curve.id === 'HCl' ? acid : metal))}
  </g>`;
}

/** Traces are counted in smaller units, or the numbers of the axis would be all zeros. */
function unitOf(metal: Scale): { readonly name: string; readonly perM: number } {
  const [, most = 0] = metal.domain();
  return most >= 0.01 ? { name: 'mol/L', perM: 1 } : most >= 1e-5 ? { name: 'mmol/L', perM: 1e3 } : { name: 'µmol/L', perM: 1e6 };
}

function inUnit(metal: Scale): Scale {
  return metal.copy().domain(metal.domain().map((value) => value * unitOf(metal).perM));
}

/** What lies below a log axis is left out. */
function shownOn(scale: Scale, values: readonly number[]): readonly number[] {
  const [least = 0] = scale.domain();
  return least > 0 ? values.map((value) => (value < least ? Number.NaN : value)) : values;
}

/** Markers stand on the peaks, where the curves must be told apart. */
function markers({ x }: Drawing, { id, xs, ys, most }: Effluent, y: Scale): SVGTemplateResult | typeof nothing {
  const style = seriesStyle(id);
  if (style.marker === 'none' || !(most > LEAST_M)) return nothing;
  let last = Number.NEGATIVE_INFINITY;
  const places = xs.flatMap((volume, i) => {
    if (ys[i] < MARKED_FROM * most || x(volume) - last < MARKER_PX) return [];
    last = x(volume);
    return [i];
  });
  return line({ x, y, xs: places.map((i) => xs[i]), ys: places.map((i) => ys[i]), style: { ...style, width: 0 }, labelAt: 'none', markers: places.length });
}

/** What else is said in the row. */
export interface Said {
  /** What matters more than the names of the curves, such as predictions, and what matters less. */
  readonly before: readonly Worded[];
  readonly after: readonly Worded[];
  /** What comes later is not told. */
  readonly until_mL: number;
  /** Volumes at which a line stands upright in the row, mL. */
  readonly uprights?: readonly number[];
}

/** Names of the curves, and the titles of the axes where there is no room beside them; they keep off the curves. */
export function effluentWords(
  drawing: Drawing,
  curves: readonly Effluent[],
  logScale: boolean,
  { before, after, until_mL, uprights = [] }: Said = ALL,
): SVGTemplateResult {
  const scales = effluentScales(drawing, curves, logScale);
  const scaleOf = ({ id }: Effluent): Scale => (id === 'HCl' ? scales.acid : scales.metal);
  const names = curves.flatMap((curve) => curveWish(drawing, curve, scaleOf(curve), until_mL));
  const lines = [...curves.map((curve) => pointsOf(drawing, curve, scaleOf(curve), until_mL)), ...uprights.map((mL) => uprightOf(drawing, mL))];
  return svg`<g class="words">${drawnWords(placedWords([...titles(drawing, unitOf(scales.metal).name), ...before, ...names, ...after], { covers: (box) => lines.some((line) => crosses(line, box)) }))}</g>`;
}

const ALL: Said = { before: [], after: [], until_mL: Number.POSITIVE_INFINITY };

/** On a narrow figure the titles of the axes stand in the row. */
function titles({ layout: { effluent: row, left, right, narrow } }: Drawing, unit: string): Worded[] {
  if (!narrow) return [];
  const y = row.top + 14;
  const within = onLine(y, left + 4, right - 4);
  return [
    { texts: ['HCl, mol/L', 'HCl'], places: [{ x: right - 4, y, anchor: 'end' }], within, look: 'row-title' },
    { texts: [`leaving: metal, ${unit}`, `metal, ${unit}`], places: [{ x: left + 4, y, anchor: 'start' }], within, look: 'row-title' },
  ];
}

function uprightOf({ x, layout: { effluent } }: Drawing, mL: number): Point[] {
  return [effluent.top, effluent.bottom].map((y) => ({ x: x(mL), y }));
}

function pointsOf({ x }: Drawing, { xs, ys }: Effluent, y: Scale, until_mL: number): Point[] {
  return xs.flatMap((mL, i) => (mL <= until_mL && Number.isFinite(y(ys[i])) ? [{ x: x(mL), y: y(ys[i]) }] : []));
}

function curveWish({ x, layout }: Drawing, curve: Effluent, y: Scale, until_mL: number): Worded[] {
  const place = curve.id === 'HCl' ? plateau(curve) : curve.ys.indexOf(curve.most);
  const volume = curve.xs[place];
  if (volume === undefined || volume > until_mL || !(curve.most > LEAST_M)) return [];
  const style = seriesStyle(curve.id);
  const base = y(curve.most) + (curve.id === 'HCl' ? -5 : 4);
  const places = [
    { x: x(volume) + 8, y: base, anchor: 'start' },
    { x: x(volume) - 8, y: base, anchor: 'end' },
  ] as const;
  return [{ texts: [style.label], places, within: insideOf(layout, layout.effluent), look: 'line-label', colour: style.text }];
}

/** Middle of the stretch at nearly the highest value. */
function plateau({ ys, most }: Effluent): number {
  const first = ys.findIndex((value) => value > most * 0.97);
  let last = first;
  while (last + 1 < ys.length && (ys[last + 1] ?? 0) > most * 0.97) last++;
  return Math.round(first + (last - first) * 0.35);
}

function logOf(most: number, range: readonly number[]): Scale {
  return scaleLog()
    .domain([most * 10 ** -DECADES, most * 1.6])
    .range(range);
}
