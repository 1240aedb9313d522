import { scaleLinear } from 'd3-scale';
import { html, nothing, svg } from 'lit';
import type { Recomputed } from '../../sim/handed/index.ts';
import { axis } from '../plot/axis.ts';
import { linePath } from '../plot/line.ts';
import { millilitres } from '../ui/text/format.ts';

const WIDTH = 760;
const LEFT = 150;
const RIGHT = 16;
const CURVE = 90;
const ROW = 18;
const BELOW = 48;
const NAME_MAX = 20;
/** px by which the two marks of a run lie above and below its line: a receiver is often changed with the water. */
const APART = 4;

/** Where each started the weaker eluent (triangle) and changed the receiver (circle), under the effluent of every run; bars are the windows that were open to them. */
export function marks(runs: readonly Recomputed[]) {
  const last = Math.max(1, ...runs.map(({ delivered_mL }) => delivered_mL));
  const x = scaleLinear([0, last], [LEFT, WIDTH - RIGHT]);
  const top = CURVE + ROW;
  const bottom = top + ROW * runs.length;
  return html`<svg class="plot" viewBox="0 0 ${WIDTH} ${bottom + BELOW}" role="img" aria-label="Start of water and change of receiver of ${runs.length} runs along the volume delivered">
    ${curves(runs, x)}
    ${axis({ scale: x, side: 'bottom', at: bottom, title: 'delivered', unit: 'mL', grid: bottom - top })}
    ${runs.map((run, i) => row(run, x, top + ROW * (i + 0.5)))}
  </svg>`;
}

function curves(runs: readonly Recomputed[], x: ReturnType<typeof scaleLinear<number>>) {
  const most = Math.max(1e-9, ...runs.flatMap(({ leaving }) => leaving.ys));
  const y = scaleLinear([0, most], [CURVE, ROW]);
  return svg`${runs.map(({ leaving }) => svg`<path class="curve" d=${linePath({ x, y, ...leaving })}></path>`)}
    <text x=${LEFT - 8} y=${CURVE - 4} text-anchor="end">leaving the tip</text>`;
}

function row({ who, eluent_mL, change_mL, window_mL }: Recomputed, x: ReturnType<typeof scaleLinear<number>>, y: number) {
  const name = who.length > NAME_MAX ? `${who.slice(0, NAME_MAX)}…` : who;
  const told = [
    eluent_mL === undefined ? 'no water' : `water at ${millilitres(eluent_mL)}`,
    change_mL === undefined ? 'receiver not changed' : `receiver at ${millilitres(change_mL)}`,
  ];
  return svg`<g><title>${who}: ${told.join(', ')}</title>
    <text x=${LEFT - 8} y=${y} text-anchor="end" dominant-baseline="middle">${name}</text>
    ${window_mL ? svg`<rect class="window" x=${x(window_mL[0])} width=${Math.max(1, x(window_mL[1]) - x(window_mL[0]))} y=${y - 6} height="12"></rect>` : nothing}
    ${eluent_mL === undefined ? nothing : svg`<path class="water" d="M -5 -5 L 5 -5 L 0 5 Z" transform="translate(${x(eluent_mL)} ${y - APART})"></path>`}
    ${change_mL === undefined ? nothing : svg`<circle class="change" cx=${x(change_mL)} cy=${y + APART} r="4"></circle>`}
  </g>`;
}
