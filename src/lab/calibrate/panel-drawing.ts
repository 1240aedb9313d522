import { scaleLinear } from 'd3-scale';
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { axis, type Scale } from '../../plot/axis.ts';
import { linePath } from '../../plot/line.ts';
import type { Residual } from '../fit/calibrate.ts';
import { isSteady, type ModelCurves, type Steady } from '../fit/curves.ts';
import type { Panel } from './panels.ts';

// Readings with their 95 % bars, over the model before the fit (dashed) and after it (solid).

const MARGIN = { top: 10, right: 14, bottom: 46, left: 58 } as const;
/** Bars of a reading: 95 % of a normal spread. */
const BAR = 1.96;
/** Half a marker, px. */
const MARK = 4;
const PHASES = ['before', 'after'] as const;

interface Size {
  readonly width: number;
  readonly height: number;
}

export function panelDrawing(panel: Panel, curves: ModelCurves, size: Size): SVGTemplateResult {
  return panel.beside === undefined ? againstVolume(panel, curves, size) : sideBySide(panel, panel.beside, size);
}

/** (measured - model) in deviations, along the run. */
export function residualDrawing(readings: readonly Residual[], { width, height }: Size): SVGTemplateResult {
  const answered = readings.filter(({ residual }) => Number.isFinite(residual));
  const most = Math.max(3, ...answered.map(({ residual }) => Math.abs(residual)));
  const x = alongRun(readings, width);
  const y = upwards([-most, most], height);
  return svg`
    <rect class="within" x=${MARGIN.left} width=${width - MARGIN.left - MARGIN.right} y=${y(BAR)} height=${y(-BAR) - y(BAR)}></rect>
    ${frame(x, y, { width, height }, 'residual', 'deviations')}
    <line class="after" x1=${MARGIN.left} x2=${width - MARGIN.right} y1=${y(0)} y2=${y(0)}></line>
    ${answered.map((one) => svg`<g>${mark(one, x(one.at_mL), y(one.residual))}<title>row ${one.row}, ${one.column}</title></g>`)}`;
}

function againstVolume({ readings, unit }: Panel, curves: ModelCurves, size: Size): SVGTemplateResult {
  const steady = [...new Set(readings.map(({ quantity }) => quantity).filter(isSteady))];
  const x = alongRun(readings, size.width, curves);
  const y = upwards(extent(readings, steady, curves), size.height);
  return svg`
    ${frame(x, y, size, '', unit)}
    ${PHASES.map(
      (phase) => svg`${steady.map((quantity) => svg`<path class=${phase} d=${linePath({ x, y, xs: curves.at_mL, ys: curves[phase][quantity] })}></path>`)}
      ${readings.filter(({ quantity }) => !isSteady(quantity)).map((one) => overFraction(one, phase, x, y))}`,
    )}
    ${readings.map((one) => readingAt(one, x, y))}`;
}

function overFraction(one: Residual, phase: 'before' | 'after', x: Scale, y: Scale): SVGTemplateResult | typeof nothing {
  return Number.isFinite(one[phase])
    ? svg`<line class=${phase} x1=${x(one.from_mL)} x2=${x(one.at_mL)} y1=${y(one[phase])} y2=${y(one[phase])}></line>`
    : nothing;
}

function readingAt(one: Residual, x: Scale, y: Scale): SVGTemplateResult {
  const at = x(isSteady(one.quantity) ? one.at_mL : (one.from_mL + one.at_mL) / 2);
  const reach = BAR * one.deviation;
  return svg`<g><line class="bar" x1=${at} x2=${at} y1=${y(one.value - reach)} y2=${y(one.value + reach)}></line>${mark(one, at, y(one.value))}<title>row ${one.row}, ${one.column}: ${one.value}</title></g>`;
}

/** Readings side by side, each with the value that the model gives. */
function sideBySide({ readings, unit }: Panel, title: string, size: Size): SVGTemplateResult {
  const y = upwards(extent(readings, []), size.height);
  const [left, right] = [MARGIN.left, size.width - MARGIN.right];
  const step = (right - left) / readings.length;
  return svg`
    ${axis({ scale: y, side: 'left', at: left, ticks: 4, title, unit, grid: right - left })}
    ${readings.map((one, i) => {
      const at = left + step * (i + 0.5);
      const reach = BAR * one.deviation;
      return svg`<g>${PHASES.map((phase) => (Number.isFinite(one[phase]) ? svg`<line class=${phase} x1=${at - step / 3} x2=${at + step / 3} y1=${y(one[phase])} y2=${y(one[phase])}></line>` : nothing))}
        <line class="bar" x1=${at} x2=${at} y1=${y(one.value - reach)} y2=${y(one.value + reach)}></line>${mark(one, at, y(one.value))}
        <text class="tick-text" x=${at} y=${size.height - MARGIN.bottom + 20} text-anchor="middle">${one.quantity}</text><title>row ${one.row}, ${one.column}: ${one.value}</title></g>`;
    })}`;
}

/** The upper edge of a band is an open square, everything else a dot. */
function mark({ quantity }: Residual, x: number, y: number): SVGTemplateResult {
  return quantity === 'trailing'
    ? svg`<rect class="read open" x=${x - MARK} y=${y - MARK} width=${2 * MARK} height=${2 * MARK}></rect>`
    : svg`<circle class="read" cx=${x} cy=${y} r=${MARK}></circle>`;
}

function frame(x: Scale, y: Scale, { width, height }: Size, title: string, unit: string): SVGTemplateResult {
  return svg`${axis({ scale: x, side: 'bottom', at: height - MARGIN.bottom, ticks: 6, title: 'delivered', unit: 'mL' })}
    ${axis({ scale: y, side: 'left', at: MARGIN.left, ticks: 4, title: title || unit, ...(title !== '' && { unit }), grid: width - MARGIN.left - MARGIN.right })}`;
}

function alongRun(readings: readonly Residual[], width: number, curves?: ModelCurves): Scale {
  const last = curves?.at_mL.at(-1) ?? Math.max(...readings.map(({ at_mL }) => at_mL));
  // With fractions only, the axis begins at the first of them.
  const first = readings.every(({ quantity }) => quantity === 'fraction' || quantity === 'alkali') ? Math.min(...readings.map(({ from_mL }) => from_mL)) : 0;
  return scaleLinear()
    .domain([first, last])
    .range([MARGIN.left, width - MARGIN.right]);
}

function upwards(ends: readonly [number, number], height: number): Scale {
  return scaleLinear()
    .domain(ends)
    .range([height - MARGIN.bottom, MARGIN.top])
    .nice(4);
}

/** Smallest and largest value that is drawn. */
function extent(readings: readonly Residual[], steady: readonly Steady[], curves?: ModelCurves): readonly [number, number] {
  const read = readings.flatMap(({ value, deviation, before, after }) => [value - BAR * deviation, value + BAR * deviation, before, after]);
  const drawn = curves ? PHASES.flatMap((phase) => steady.flatMap((quantity) => curves[phase][quantity])) : [];
  const finite = [...read, ...drawn].filter(Number.isFinite);
  return [Math.min(...finite), Math.max(...finite)];
}
