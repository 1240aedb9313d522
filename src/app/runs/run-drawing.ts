import { scaleLinear } from 'd3-scale';
import { area } from 'd3-shape';
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { Scale } from '../../plot/axis.ts';
import { linePath } from '../../plot/line.ts';
import { seriesStyle } from '../../plot/series.ts';
import type { PicturedBand, RunPicture } from './run-picture.ts';

// A run in small: above, the bands in the bed from top to bottom; below, what left the tip; under that, the part that was kept.

export const WIDTH = 220;
export const HEIGHT = 104;
const LEFT = 2;
const RIGHT = 218;
const BED = { top: 3, bottom: 46 };
const LEAVING = { top: 52, bottom: 92 };
const KEPT = { top: 97, height: 5 };
/** The axis goes at least so far, mL. */
const LEAST_ML = 10;

/** `beside`: another run over the same axis, in dots. */
export function runDrawing(picture: RunPicture, beside?: RunPicture): SVGTemplateResult {
  const x = scaleLinear()
    .domain([0, Math.max(LEAST_ML, picture.end_mL, beside?.end_mL ?? 0)])
    .range([LEFT, RIGHT]);
  return svg`<rect class="bed" x=${LEFT} y=${BED.top} width=${RIGHT - LEFT} height=${BED.bottom - BED.top}></rect>
    ${picture.bands.map((band) => bandDrawing(band, x))}
    ${beside?.bands.map(({ xs, leading }) => svg`<path class="beside" d=${linePath({ x, y: depth(), xs, ys: leading })}></path>`)}
    <line class="base" x1=${LEFT} x2=${RIGHT} y1=${LEAVING.bottom} y2=${LEAVING.bottom}></line>
    ${curves(picture, beside, x)}
    ${picture.kept ? svg`<rect class="kept" x=${x(picture.kept.from_mL)} y=${KEPT.top} width=${Math.max(1, x(picture.kept.to_mL) - x(picture.kept.from_mL))} height=${KEPT.height}></rect>` : nothing}
    ${beside?.kept ? svg`<path class="beside" d=${`M${x(beside.kept.from_mL)} ${KEPT.top + KEPT.height / 2}H${x(beside.kept.to_mL)}`}></path>` : nothing}`;
}

function bandDrawing({ ion, xs, leading, trailing }: PicturedBand, x: Scale): SVGTemplateResult {
  const y = depth();
  const path = area<number>()
    .digits(1)
    .defined((_, place) => Number.isFinite(leading[place]) && Number.isFinite(trailing[place]))
    .x((mL) => x(mL))
    .y0((_, place) => y(trailing[place]))
    .y1((_, place) => y(leading[place]))(xs);
  return svg`<path class="band" d=${path} fill=${seriesStyle(ion).colour}></path>`;
}

/** Each ion to its own height, so that a little beside much is seen too. */
function curves(picture: RunPicture, beside: RunPicture | undefined, x: Scale) {
  return picture.curves.map(({ ion, xs, ys }) => {
    const other = beside?.curves.find((curve) => curve.ion === ion);
    const y = scaleLinear()
      .domain([0, Math.max(1e-9, ...ys, ...(other?.ys ?? []))])
      .range([LEAVING.bottom, LEAVING.top]);
    const { colour, dash } = seriesStyle(ion);
    return svg`<path class="leaving" d=${linePath({ x, y, xs, ys })} stroke=${colour} stroke-dasharray=${dash || nothing}></path>
      ${other ? svg`<path class="beside" d=${linePath({ x, y, xs: other.xs, ys: other.ys })}></path>` : nothing}`;
  });
}

function depth() {
  return scaleLinear().domain([0, 1]).range([BED.top, BED.bottom]);
}
