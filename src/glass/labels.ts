import { scaleLinear } from 'd3-scale';
import type { Scenario } from '../../sim/terms/types.ts';
import type { Layout } from './layout.ts';

// Words beside the drawing.

export interface Mark {
  readonly y: number;
  readonly text: string;
}

/** Heights above the bed that get a tick, cm, if they are far enough apart. */
const HEIGHTS_CM = [1, 2, 5, 10, 20, 50, 100, 200];
/** Least distance between two ticks, px. */
const APART = 16;

/** Ticks down the bed; the first carries the unit. */
export function depthTicks(layout: Layout, { values }: Scenario): Mark[] {
  const length = values['bed.length_cm'];
  const count = Math.max(2, Math.min(6, Math.floor((layout.bedBottom - layout.bedTop) / 40)));
  return scaleLinear()
    .domain([0, length])
    .ticks(count)
    .map((depth) => ({ y: layout.bedTop + depth * layout.pxPerCm, text: depth === 0 ? '0 cm' : String(depth) }));
}

/** Ticks up the tube above the bed. */
export function heightTicks(layout: Layout, { values }: Scenario): Mark[] {
  const space = values['column.tube_cm'] - values['bed.length_cm'];
  let last = layout.bedTop;
  return HEIGHTS_CM.filter((cm) => cm <= space).flatMap((cm) => {
    const y = layout.above(cm);
    if (last - y < APART) return [];
    last = y;
    return [{ y, text: `+${cm}` }];
  });
}
