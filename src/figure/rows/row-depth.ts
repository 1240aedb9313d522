import { nothing, svg, type SVGTemplateResult } from 'lit';
import { axis } from '../../plot/axis.ts';
import { deliveredOf, type Track } from '../../../sim/history/index.ts';
import { seriesStyle } from '../../plot/series.ts';
import { depthAtFrame, type Drawing, depthScale } from '../drawing.ts';

// Second row, drawn over the picture of the bands: depth axis, top of the bed, edges of each band, and the acid fronts where they are known.

/** px between points of an edge: finer is not seen. */
const POINT_PX = 2;

export function depthRow(drawing: Drawing, tracks: readonly Track[], fronts: SVGTemplateResult | typeof nothing = nothing): SVGTemplateResult {
  const { depth, left, right, narrow } = drawing.layout;
  const title = narrow ? {} : { title: 'depth in bed', unit: 'cm' };
  return svg`<g class="depth">
    <rect class="frame" x=${left} y=${depth.top} width=${right - left} height=${depth.bottom - depth.top} fill="none"></rect>
    ${axis({ scale: depthScale(drawing), side: 'left', at: left, ticks: 4, ...title })}
    ${fronts}
    <path class="bed-top" d=${topPath(drawing)}></path>
    ${tracks.map((track) => edges(drawing, track))}
  </g>`;
}

/** Top of the bed as it shrinks and swells. */
function topPath(drawing: Drawing): string {
  return edgePath(drawing, new Float32Array(drawing.plan.count));
}

function edges(drawing: Drawing, track: Track): SVGTemplateResult {
  const { colour, dash } = seriesStyle(track.ion);
  return svg`${[track.trailing_cm, track.leading_cm].map((depths) => svg`<path class="edge" stroke=${colour} stroke-dasharray=${dash || nothing} d=${edgePath(drawing, depths)}></path>`)}`;
}

function edgePath(drawing: Drawing, depths_cm: Float32Array): string {
  const { plan, x } = drawing;
  let path = '';
  let last = Number.NEGATIVE_INFINITY;
  let open = false;
  for (let frame = 0; frame < plan.count; frame++) {
    const px = x(deliveredOf(plan, frame));
    if (Number.isNaN(depths_cm[frame])) open = false;
    else if (!open || px - last >= POINT_PX) {
      path += `${open ? 'L' : 'M'}${px.toFixed(1)} ${depthAtFrame(drawing, frame)(depths_cm[frame]).toFixed(1)}`;
      last = px;
      open = true;
    }
  }
  return path;
}
