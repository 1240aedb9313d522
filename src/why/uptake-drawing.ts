import { scaleLog } from 'd3-scale';
import { svg, type SVGTemplateResult } from 'lit';
import type { IonId } from '../../sim/terms/ions.ts';
import { distributionOf } from '../../sim/chemistry/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { axis, type Scale } from '../plot/axis.ts';
import { cursor } from '../plot/cursor.ts';
import { line } from '../plot/line.ts';
import { seriesStyle } from '../plot/series.ts';
import { ACID_TOP_M, acidScale } from './ion/species-drawing.ts';

// D_v of every ion against HCl, logarithmic, with a dot on each curve at the chosen acid.

export interface UptakeDrawing {
  readonly scenario: Scenario;
  readonly ions: readonly IonId[];
  /** Drawn stronger. */
  readonly ion: IonId;
  readonly HCl_M: number;
  readonly width: number;
  readonly height: number;
}

/** Range of the D axis: below, an ion simply runs with the liquid; above, it does not move. */
const D_FROM = 0.01;
const D_TO = 10_000;
const STEPS = 120;
const TOP = 8;
const BOTTOM = 46;
/** Least distance of two names at the right, px, and room for them. */
const NAME_STEP = 19;
export const NAME_ROOM = 46;

export function uptakeDrawing(drawing: UptakeDrawing): SVGTemplateResult {
  const { scenario, ions, ion, HCl_M, height } = drawing;
  const x = acidScale(drawing.width - NAME_ROOM);
  const y = scaleLog()
    .domain([D_FROM, D_TO])
    .range([height - BOTTOM, TOP])
    .clamp(false);
  const [left = 0, right = 0] = x.range();
  const porosity = scenario.values['bed.porosity'];
  return svg`
    <rect class="frame" x=${left} y=${TOP} width=${right - left} height=${height - BOTTOM - TOP} fill="none"></rect>
    ${axis({ scale: x, side: 'bottom', at: height - BOTTOM, title: 'HCl', unit: 'mol/L' })}
    ${axis({ scale: y, side: 'left', at: left, ticks: 6, title: 'Dᵥ, beads over liquid', grid: right - left, show: power })}
    <line class="half" x1=${left} x2=${right} y1=${y(porosity)} y2=${y(porosity)}></line>
    ${ions.map((each) => curve(drawing, each, x, y))}
    ${names(drawing, x, y)}
    ${cursor({ at: x(HCl_M), top: TOP, bottom: height - BOTTOM })}
    ${ions.map((each) => dot(scenario, each, each === ion, HCl_M, x, y))}`;
}

function power(D: number): string {
  return D > 1000 ? '10⁴' : String(Number(D.toPrecision(1)));
}

function curve({ scenario, ion }: UptakeDrawing, each: IonId, x: Scale, y: Scale): SVGTemplateResult {
  const D = distributionOf(scenario, each);
  const xs = Array.from({ length: STEPS + 1 }, (_, i) => Math.max(1e-3, (ACID_TOP_M * i) / STEPS));
  const style = seriesStyle(each);
  const own = scenario.curves[each] ?? [];
  return svg`${line({ x, y, xs, ys: xs.map((c) => inRange(D(c))), style: { ...style, width: each === ion ? style.width + 1.5 : style.width }, labelAt: 'none', markers: 6 })}
    ${own.filter(([c, value]) => c <= ACID_TOP_M && value >= D_FROM && value <= D_TO).map(([c, value]) => svg`<rect class="own" x=${x(c) - 4} y=${y(value) - 4} width="8" height="8" stroke=${style.colour}></rect>`)}`;
}

function inRange(D: number): number {
  return D >= D_FROM && D <= D_TO ? D : Number.NaN;
}

function dot(scenario: Scenario, each: IonId, chosen: boolean, HCl_M: number, x: Scale, y: Scale): SVGTemplateResult {
  const D = Math.min(D_TO, Math.max(D_FROM, distributionOf(scenario, each)(HCl_M)));
  return svg`<circle class="dot" cx=${x(HCl_M)} cy=${y(D)} r=${chosen ? 7 : 5} fill=${seriesStyle(each).colour}></circle>`;
}

/** Names at the right end of the curves, moved apart where curves end close together. */
function names({ scenario, ions }: UptakeDrawing, x: Scale, y: Scale): SVGTemplateResult[] {
  const [, right = 0] = x.range();
  const ends = ions.map((ion) => ({ ion, wanted: y(Math.max(D_FROM, distributionOf(scenario, ion)(ACID_TOP_M))) })).sort((a, b) => a.wanted - b.wanted);
  return spread(
    ends.map(({ wanted }) => wanted),
    NAME_STEP,
  ).map(
    (at, i) =>
      svg`<text class="line-label" x=${right + 8} y=${at} fill=${seriesStyle(ends[i].ion).text} dominant-baseline="central">${seriesStyle(ends[i].ion).label}</text>`,
  );
}

/** Increasing places moved as little as need be until none is closer than `step` to the one before. */
export function spread(places: readonly number[], step: number): number[] {
  const moved: number[] = [];
  for (const place of places) moved.push(Math.max(place, (moved.at(-1) ?? Number.NEGATIVE_INFINITY) + step));
  const over = moved.map((at, i) => at - places[i]);
  // Half of what the last of a crowd was pushed down is given back to the whole crowd.
  let from = 0;
  for (let i = 1; i <= moved.length; i++) {
    if (i < moved.length && moved[i] - moved[i - 1] <= step + 1e-9) continue;
    const back = (over[i - 1] ?? 0) / 2;
    const room = from === 0 ? Number.POSITIVE_INFINITY : moved[from] - moved[from - 1] - step;
    for (let k = from; k < i; k++) moved[k] -= Math.min(back, room);
    from = i;
  }
  return moved;
}
