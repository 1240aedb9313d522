import { scaleLinear } from 'd3-scale';
import type { Scenario } from '../../sim/terms/types.ts';
import { type Layout, readingY } from './layout.ts';

// Words beside the drawing.

export interface Mark {
  readonly y: number;
  readonly text: string;
}

/** Heights above the cut of the tube that get a tick, cm, if they are far enough apart. */
const HEIGHTS_CM = [5, 10, 15, 20, 30, 50, 100, 150, 200];
/** Least distance between two ticks, px. */
const APART = 14;

/** Ticks of the ruler beside the bed; the first carries the unit. */
export function depthTicks(layout: Layout, { values }: Scenario): Mark[] {
  const length = values['bed.length_cm'];
  const count = Math.max(2, Math.min(6, Math.floor((layout.bedBottom - layout.bedTop) / 40)));
  return scaleLinear()
    .domain([0, length])
    .ticks(count)
    .map((depth) => ({ y: readingY(layout, depth), text: depth === 0 ? '0 cm' : String(depth) }));
}

/** Whole centimetres on the ruler, 0 where the bed stood when it was packed, as many as can be read. */
export function rulerTicks({ zero, pxPerCm, ruler }: Layout): Mark[] {
  const every = [1, 2, 5, 10].find((cm) => cm * pxPerCm >= APART) ?? 20;
  const first = Math.ceil((ruler.top + 5 - zero) / pxPerCm / every);
  const last = Math.floor((ruler.bottom - 4 - zero) / pxPerCm / every);
  return Array.from({ length: last - first + 1 }, (_, i) => ({ y: zero + (first + i) * every * pxPerCm, text: String(Math.abs(first + i) * every) }));
}

/** Ticks up the tube where it is drawn smaller, above its cut. */
export function heightTicks(layout: Layout, { values }: Scenario): Mark[] {
  const { break: cut } = layout;
  if (cut === undefined) return [];
  const space = values['column.tube_cm'] - values['bed.length_cm'];
  let last = cut;
  return HEIGHTS_CM.filter((cm) => cm <= space).flatMap((cm) => {
    const y = layout.aboveZero(cm);
    if (last - y < APART / 2) return [];
    last = y - APART / 2;
    return [{ y, text: `+${cm}` }];
  });
}
