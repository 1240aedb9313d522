import { svg, type SVGTemplateResult } from 'lit';
import { distributionOf } from '../../../sim/chemistry/index.ts';
import type { IonId } from '../../../sim/terms/ions.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { axis, type Scale } from '../../plot/axis.ts';
import { scaleLinear, scaleLog } from 'd3-scale';
import { line } from '../../plot/line.ts';
import { seriesStyle } from '../../plot/series.ts';

// D_v of one ion against HCl: the built-in curve is dotted; a table of the reader's own is drawn as squares, with the curve that the model takes from it.

export interface CurveDrawing {
  /** Gives the resin; its own curves are left out. */
  readonly scenario: Scenario;
  readonly ion: IonId;
  readonly points: readonly (readonly [HCl_M: number, D_v: number])[];
  readonly width: number;
  readonly height: number;
}

const ACID_TOP_M = 12.5;
/** Range of the D axis: below, an ion runs with the liquid; above, it does not move. */
const D_FROM = 0.01;
const D_TO = 10_000;
const STEPS = 120;
const MARGIN = { top: 8, right: 12, bottom: 44, left: 60 } as const;

export function curveDrawing({ scenario, ion, points, width, height }: CurveDrawing): SVGTemplateResult {
  const x = scaleLinear()
    .domain([0, ACID_TOP_M])
    .range([MARGIN.left, width - MARGIN.right]);
  const y = scaleLog()
    .domain([D_FROM, D_TO])
    .range([height - MARGIN.bottom, MARGIN.top]);
  const builtIn = { ...scenario, curves: {} };
  return svg`
    ${axis({ scale: x, side: 'bottom', at: height - MARGIN.bottom, title: 'HCl', unit: 'mol/L' })}
    ${axis({ scale: y, side: 'left', at: MARGIN.left, ticks: 6, title: 'Dᵥ', grid: width - MARGIN.left - MARGIN.right, show: power })}
    ${curve(builtIn, ion, x, y, true)}
    ${points.length > 1 ? curve({ ...scenario, curves: { [ion]: points } }, ion, x, y, false) : ''}
    ${points.filter(isDrawn).map(([c, D]) => svg`<rect class="own" x=${x(c) - 4} y=${y(D) - 4} width="8" height="8" stroke=${seriesStyle(ion).colour}></rect>`)}`;
}

/** Whether a point lies on the axes. */
export function isDrawn([c, D]: readonly [HCl_M: number, D_v: number]): boolean {
  return c <= ACID_TOP_M && D >= D_FROM && D <= D_TO;
}

function curve(scenario: Scenario, ion: IonId, x: Scale, y: Scale, builtIn: boolean): SVGTemplateResult {
  const D = distributionOf(scenario, ion);
  const xs = Array.from({ length: STEPS + 1 }, (_, i) => Math.max(1e-3, (ACID_TOP_M * i) / STEPS));
  const ys = xs.map((c) => D(c)).map((value) => (value >= D_FROM && value <= D_TO ? value : Number.NaN));
  const style = { ...seriesStyle(ion), marker: 'none' as const, dash: builtIn ? '2 4' : '', width: builtIn ? 1.5 : 2 };
  return line({ x, y, xs, ys, style, labelAt: 'none', markers: 0 });
}

function power(D: number): string {
  return D > 1000 ? '10⁴' : String(Number(D.toPrecision(1)));
}
