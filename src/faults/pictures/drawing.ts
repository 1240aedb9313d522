import { scaleLinear } from 'd3-scale';
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { linePath } from '../../plot/line.ts';
import { seriesStyle } from '../../plot/series.ts';
import type { Picture } from './picture.ts';

// The picture of a fault: on the left the bed unrolled, lane by lane, with the band of the target; on the right what leaves the
// tip, and below it which part of that is kept. The healthy run is drawn in dots over both.

export const WIDTH = 200;
export const HEIGHT = 96;
const BED = { left: 4, right: 74, top: 6, bottom: 90 };
const EFFLUENT = { left: 88, right: 196, top: 10, bottom: 80 };
const KEPT = { top: 84, height: 5 };

export function pictureDrawing(picture: Picture, healthy: Picture): SVGTemplateResult {
  return svg`<rect class="bed" x=${BED.left} y=${BED.top} width=${BED.right - BED.left} height=${BED.bottom - BED.top}></rect>
    ${bands(picture, false)}${bands(healthy, true)}
    <line class="base" x1=${EFFLUENT.left} x2=${EFFLUENT.right} y1=${EFFLUENT.bottom} y2=${EFFLUENT.bottom}></line>
    ${curves(picture, healthy)}
    ${kept(picture, healthy)}`;
}

function bands({ strips, target }: Picture, isTwin: boolean): SVGTemplateResult {
  const one = (BED.right - BED.left) / strips.length;
  const y = (share: number): number => BED.top + share * (BED.bottom - BED.top);
  return svg`${strips.map((strip, lane) => {
    const x = BED.left + lane * one;
    if (!strip) return nothing;
    return isTwin
      ? svg`<path class="twin" d=${`M${x} ${y(strip.to)}h${one}`}></path>`
      : svg`<rect class="band" x=${x} y=${y(strip.from)} width=${one} height=${Math.max(1, y(strip.to) - y(strip.from))} fill=${seriesStyle(target).colour}></rect>`;
  })}`;
}

/** Each ion to its own height, so that a small amount beside a large one is seen too. */
function curves(picture: Picture, healthy: Picture): SVGTemplateResult {
  const end = Math.max(picture.end_mL, healthy.end_mL);
  const x = scale(0, end, EFFLUENT.left, EFFLUENT.right);
  return svg`${picture.curves.map(({ ion, xs, ys }) => {
    const twin = healthy.curves.find((curve) => curve.ion === ion);
    const y = scale(0, Math.max(1e-9, ...ys, ...(twin?.ys ?? [])), EFFLUENT.bottom, EFFLUENT.top);
    const { colour, dash } = seriesStyle(ion);
    return svg`<path class="leaving" d=${linePath({ x, y, xs, ys })} stroke=${colour} stroke-dasharray=${dash || nothing}></path>
      ${twin ? svg`<path class="twin" d=${linePath({ x, y, xs: twin.xs, ys: twin.ys })}></path>` : nothing}`;
  })}`;
}

function kept(picture: Picture, healthy: Picture): SVGTemplateResult | typeof nothing {
  const { kept: span } = picture;
  if (!span) return nothing;
  const x = scale(0, Math.max(picture.end_mL, healthy.end_mL), EFFLUENT.left, EFFLUENT.right);
  return svg`<rect class="kept" x=${x(span.from_mL)} y=${KEPT.top} width=${Math.max(1, x(span.to_mL) - x(span.from_mL))} height=${KEPT.height}></rect>`;
}

function scale(from: number, to: number, start: number, end: number) {
  return scaleLinear().domain([from, to]).range([start, end]);
}
