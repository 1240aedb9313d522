import { scaleLinear } from 'd3-scale';
import { area } from 'd3-shape';
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { IonId, Scenario } from '../../../sim/terms/types.ts';
import { axis, type Scale } from '../../plot/axis.ts';
import { bracket } from '../../plot/band.ts';
import { cursor } from '../../plot/cursor.ts';
import { line, linePath } from '../../plot/line.ts';
import { seriesStyle } from '../../plot/series.ts';
import { deliveredAtEnd, type Plan, spansOf } from '../../../sim/history/index.ts';
import { bandCurve, curveUntil, leavingCurve, valueAt } from './bands.ts';

// A run laid over its twin: bands over depth, effluent, and the difference of one ion, all over delivered volume. The run is
// solid with markers, the twin thin, dotted and hatched.

export interface Ran {
  readonly scenario: Scenario;
  readonly plan: Plan;
}

export interface Overlay {
  readonly run: Ran;
  readonly twin: Ran | undefined;
  readonly width: number;
  readonly now_mL: number;
}

export interface Projected extends Overlay {
  /** A class that is asked what will follow sees no further than now. */
  readonly aheadHidden: boolean;
}

export const OVERLAY_HEIGHT = 470;
/** For a class: what leaves, large. */
export const PROJECTED_HEIGHT = 430;
const LEFT = 80;
const RIGHT = 50;
const ROWS = {
  bands: { top: 24, bottom: 136 },
  effluent: { top: 170, bottom: 266 },
  receivers: { top: 298, bottom: 352 },
  difference: { top: 386, bottom: 428 },
} as const;
const TITLE_ABOVE = 8;
const HEADROOM = 1.15;
const DOTS = '1.5 3';
/** Share of the height below which a curve lies on the axis for somebody at the back of a room; a choice. */
const SEEN = 0.02;
/** Less than this, mol/L, is nothing; then the axis ends here. Choices. */
const TRACE_M = 1e-6;
const EMPTY_M = 0.1;
/** Points at which the difference is taken. */
const DIFFERENCES = 240;

export function overlayDrawing({ run, twin, width, now_mL }: Overlay, target: IonId): SVGTemplateResult {
  const both = twin ? [run, twin] : [run];
  const x = scaleLinear()
    .domain([0, Math.max(5, ...both.map(({ plan }) => deliveredAtEnd(plan)))])
    .nice(10)
    .range([LEFT, Math.max(LEFT + 60, width - RIGHT)]);
  return svg`${hatch()}
    ${bandRow(x, run, twin)}
    ${effluentRow(x, run, twin)}
    ${receiverRow(x, run, twin)}
    ${twin ? differenceRow(x, run, twin, target) : nothing}
    ${axis({ scale: x, side: 'bottom', at: twin ? ROWS.difference.bottom : ROWS.receivers.bottom, title: 'delivered', unit: 'mL', ticks: width < 560 ? 5 : 10 })}
    ${cursor({ at: x(now_mL), top: ROWS.bands.top, bottom: twin ? ROWS.difference.bottom : ROWS.receivers.bottom, label: 'now', right: width, kind: 'now' })}`;
}

/** What leaves the tip in both runs, and nothing else, in a type that is read from the back of a room. */
export function projectedDrawing(projected: Projected): SVGTemplateResult {
  const { run, twin, width, now_mL } = projected;
  const both = twin ? [run, twin] : [run];
  const x = scaleLinear()
    .domain([0, Math.max(5, ...both.map(({ plan }) => deliveredAtEnd(plan)))])
    .nice(5)
    .range([LEFT + 12, Math.max(LEFT + 80, width - RIGHT)]);
  const row = { top: 84, bottom: PROJECTED_HEIGHT - 64 };
  return svg`${projectedRow(x, projected, row)}
    ${axis({ scale: x, side: 'bottom', at: row.bottom, title: '', ticks: 5 })}
    <text class="row-title" x=${x.range()[1]} y=${row.bottom + 54} text-anchor="end">delivered, mL</text>
    ${cursor({ at: x(now_mL), top: row.top, bottom: row.bottom, label: 'now', right: width, kind: 'now' })}`;
}

/** The scale is that of the whole run even while its end is hidden, so that nothing jumps when it is shown. */
function projectedRow(x: Scale, projected: Projected, { top, bottom }: { readonly top: number; readonly bottom: number }): SVGTemplateResult {
  const { run, twin, now_mL, aheadHidden } = projected;
  const metals = (ran: Ran, isTwin: boolean) => curvesOf(ran, isTwin).filter(({ id }) => id !== 'HCl');
  const whole = [...metals(run, false), ...(twin ? metals(twin, true) : [])];
  const y = scaleLinear()
    .domain([0, topOf(whole.flatMap(({ ys }) => ys)) * HEADROOM])
    .nice(3)
    .range([bottom, top]);
  const curves = aheadHidden ? whole.map((curve) => ({ ...curve, ...curveUntil(curve, now_mL) })) : whole;
  const [left, right] = x.range();
  return svg`<text class="row-title" x=${left} y=${top - 56}>leaving the tip, mol/L</text>
    <text class="row-title" x=${left} y=${top - 26}>solid line: this run, dots: its twin</text>
    ${axis({ scale: y, side: 'left', at: left, ticks: 3, title: '', grid: right - left })}
    ${curves.map((curve) => projectedLine(x, y, curve))}`;
}

/** A metal is named once some of it has left. */
function projectedLine(x: Scale, y: Scale, { id, xs, ys, isTwin }: ReturnType<typeof curvesOf>[number]): SVGTemplateResult {
  const style = seriesStyle(id);
  const [, high] = y.domain();
  return line({
    x,
    y,
    xs,
    ys,
    style: isTwin ? { ...style, colour: 'var(--ink)', dash: '2 6', width: 2.5, marker: 'none' } : { ...style, width: 4, marker: 'none' },
    labelAt: isTwin || Math.max(...ys) < SEEN * high ? 'none' : 'peak',
    markers: 0,
  });
}

function hatch(): SVGTemplateResult {
  return svg`<defs><pattern id="twin-hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" x2="0" y1="0" y2="6" stroke="var(--ink)" stroke-width="1.2" stroke-opacity="0.55"></line></pattern></defs>`;
}

function title(text: string, top: number): SVGTemplateResult {
  return svg`<text class="row-title" x=${LEFT} y=${top - TITLE_ABOVE}>${text}</text>`;
}

function bandRow(x: Scale, run: Ran, twin: Ran | undefined): SVGTemplateResult {
  const { top, bottom } = ROWS.bands;
  const deepest = Math.max(...[run, ...(twin ? [twin] : [])].map(({ scenario }) => scenario.values['bed.length_cm']));
  const y = scaleLinear().domain([0, deepest]).range([top, bottom]);
  const [, right] = x.range();
  return svg`<g class="bands">${title(twin ? 'bands: filled in this run, hatched in the twin' : 'bands', top)}
    <rect class="frame" x=${LEFT} y=${top} width=${right - LEFT} height=${bottom - top} fill="none"></rect>
    ${run.plan.ions.map((ion) => bandOf(x, y, run, ion, false))}
    ${twin ? twin.plan.ions.map((ion) => bandOf(x, y, twin, ion, true)) : nothing}
    ${bedEnd(x, y, run, deepest)}
    ${axis({ scale: y, side: 'left', at: LEFT, ticks: 4, title: 'depth', unit: 'cm' })}</g>`;
}

/** A bed shorter than its twin ends in a line. */
function bedEnd(x: Scale, y: Scale, { scenario }: Ran, deepest: number): SVGTemplateResult | typeof nothing {
  const length = scenario.values['bed.length_cm'];
  const [left, right] = x.range();
  return length < deepest ? svg`<line class="bed-end" x1=${left} x2=${right} y1=${y(length)} y2=${y(length)}></line>` : nothing;
}

function bandOf(x: Scale, y: Scale, { plan }: Ran, ion: IonId, isTwin: boolean): SVGTemplateResult {
  const { delivered_mL, leading_cm, trailing_cm } = bandCurve(plan, ion);
  const style = seriesStyle(ion);
  const places = delivered_mL.map((_, i) => i);
  const path =
    area<number>()
      .digits(1)
      .defined((i) => Number.isFinite(leading_cm[i]))
      .x((i) => x(delivered_mL[i]))
      .y0((i) => y(trailing_cm[i]))
      .y1((i) => y(leading_cm[i]))(places) ?? '';
  const edges = [trailing_cm, leading_cm].map((ys) => linePath({ x, y, xs: delivered_mL, ys }));
  return svg`<g><path d=${path} fill=${isTwin ? 'url(#twin-hatch)' : style.colour} fill-opacity=${isTwin ? 1 : 0.35}></path>
    ${edges.map((d) => svg`<path d=${d} fill="none" stroke=${isTwin ? 'var(--ink)' : style.colour} stroke-width=${isTwin ? 1 : 2} stroke-dasharray=${isTwin ? DOTS : style.dash || nothing}></path>`)}
    ${isTwin ? nothing : bandLabel(x, y, delivered_mL, leading_cm, ion)}</g>`;
}

/** The name stands where the band has been longest at one depth: at the middle of its points. */
function bandLabel(x: Scale, y: Scale, xs: readonly number[], leading: readonly number[], ion: IonId): SVGTemplateResult | typeof nothing {
  const places = leading.flatMap((depth, i) => (Number.isFinite(depth) ? [i] : []));
  const at = places[Math.floor(places.length / 2)];
  if (at === undefined) return nothing;
  const style = seriesStyle(ion);
  return svg`<text class="line-label" x=${x(xs[at])} y=${Math.min(y(leading[at]) + 14, ROWS.bands.bottom - 4)} fill=${style.text}>${style.label}</text>`;
}

/** Highest of these, mol/L; where nothing has left yet, what makes an axis with plain numbers. */
function topOf(molarities: readonly number[]): number {
  const most = Math.max(0, ...molarities);
  return most > TRACE_M ? most : EMPTY_M;
}

function effluentRow(x: Scale, run: Ran, twin: Ran | undefined): SVGTemplateResult {
  const { top, bottom } = ROWS.effluent;
  const curves = [...curvesOf(run, false), ...(twin ? curvesOf(twin, true) : [])];
  const most = (acid: boolean): number => topOf(curves.filter(({ id }) => (id === 'HCl') === acid).flatMap(({ ys }) => ys));
  const metal = scaleLinear()
    .domain([0, most(false) * HEADROOM])
    .range([bottom, top]);
  const acid = scaleLinear()
    .domain([0, most(true) * HEADROOM])
    .range([bottom, top]);
  const [, right] = x.range();
  const labelled = new Set<string>();
  return svg`<g>${title(twin ? 'effluent: solid with markers in this run, thin dots in the twin' : 'effluent', top)}
    ${axis({ scale: metal, side: 'left', at: LEFT, ticks: 4, title: 'metal', unit: 'mol/L', grid: right - LEFT })}
    ${axis({ scale: acid, side: 'right', at: right, ticks: 4, title: 'HCl', unit: 'mol/L' })}
    ${curves.map(({ id, xs, ys, isTwin }) => {
      const style = seriesStyle(id);
      const first = !isTwin && !labelled.has(id);
      labelled.add(id);
      return line({
        x,
        y: id === 'HCl' ? acid : metal,
        xs,
        ys,
        style: isTwin ? { ...style, dash: DOTS, width: 1.2, marker: 'none' } : style,
        labelAt: first ? 'peak' : 'none',
        markers: isTwin ? 0 : 14,
      });
    })}</g>`;
}

function curvesOf({ plan }: Ran, isTwin: boolean) {
  return (['HCl', ...plan.ions] as const).map((id) => ({ id, isTwin, ...leavingCurve(plan, id) }));
}

/** Which vessel stood under the tip over which volumes; the twin's below that of the run. */
function receiverRow(x: Scale, run: Ran, twin: Ran | undefined): SVGTemplateResult {
  const { top } = ROWS.receivers;
  const brackets = (ran: Ran, at: number) =>
    spansOf(ran.plan)
      .filter(({ from_mL, to_mL }) => to_mL > from_mL)
      .map(({ from_mL, to_mL, label }) => bracket({ from: x(from_mL) + 1, to: x(to_mL) - 1, at, label }));
  return svg`<g class="receivers">${title(twin ? 'receivers: this run, and below it the twin' : 'receivers', top - 4)}
    <g>${brackets(run, top + 6)}</g>${twin ? svg`<g class="twin">${brackets(twin, top + 38)}</g>` : nothing}</g>`;
}

/** How much more of the target leaves at each volume than in the twin: above the line too early, below it missing. */
function differenceRow(x: Scale, run: Ran, twin: Ran, target: IonId): SVGTemplateResult {
  const { top, bottom } = ROWS.difference;
  const [ours, theirs] = [run, twin].map(({ plan }) => leavingCurve(plan, target));
  const [from, to] = x.domain();
  const xs = Array.from({ length: DIFFERENCES }, (_, i) => from + ((to - from) * i) / (DIFFERENCES - 1));
  const ys = xs.map((volume) => valueAt(ours, volume) - valueAt(theirs, volume));
  // As high as the twin's own curve, so that the axis stays while the severity is changed.
  const most = Math.max(topOf(theirs.ys), ...ys.map(Math.abs));
  const y = scaleLinear().domain([-most, most]).range([bottom, top]);
  const style = seriesStyle(target);
  const path =
    area<number>()
      .digits(1)
      .x((i) => x(xs[i]))
      .y0(y(0))
      .y1((i) => y(ys[i]))(xs.map((_, i) => i)) ?? '';
  const [, right] = x.range();
  return svg`<g>${title(`difference: ${style.label} leaving in this run minus that in the twin`, top)}
    <path d=${path} fill=${style.colour} fill-opacity="0.5" stroke=${style.colour}></path>
    <line class="tick" x1=${LEFT} x2=${right} y1=${y(0)} y2=${y(0)}></line>
    ${axis({ scale: y, side: 'left', at: LEFT, ticks: 3, title: 'mol/L' })}</g>`;
}
