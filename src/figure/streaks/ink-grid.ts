import { deliveredAtEnd, frameAt, profilesOf } from '../../../sim/history/index.ts';
import type { IonId } from '../../../sim/terms/types.ts';
import type { Box } from '../../plot/box.ts';
import { depthAtFrame } from '../drawing.ts';
import type { Measured } from './measured.ts';

// Where in the picture of the bands the ink of one ion lies, on a grid as fine as words need it.

/** Side of a cell, px. */
export const CELL = 4;
/** Ink from which a streak is seen, as a share of the full ink; the ramp runs with the root of the amount. A choice. */
const SEEN = 0.15;
/** Ink over that of any other ion from which a place is read as this ion's. A choice. */
const OVER_OTHERS = 1.2;

/** Ink of one ion summed from the top left corner, and how many cells it has to itself. */
export interface InkGrid {
  readonly columns: number;
  readonly rows: number;
  readonly ink: Float64Array;
  readonly own: Float64Array;
}

/** A cell is an ion's own where its ink is seen and outweighs that of every other. */
export function inkGrids(measured: Measured): Map<IonId, InkGrid> {
  const { layout, plan } = measured;
  const columns = Math.floor((layout.right - layout.left) / CELL);
  const rows = Math.floor((layout.depth.bottom - layout.depth.top) / CELL);
  const grids = plan.ions.map((): InkGrid => {
    const sums = (): Float64Array => new Float64Array((columns + 1) * (rows + 1));
    return { columns, rows, ink: sums(), own: sums() };
  });
  for (let column = 0; column < columns; column++) {
    const inkAt = inksOfColumn(measured, layout.left + (column + 0.5) * CELL);
    for (let row = 0; row < rows; row++) {
      const inks = inkAt(layout.depth.top + (row + 0.5) * CELL);
      grids.forEach((grid, k) => addCell(grid, column, row, inks[k] ?? 0, isOwn(inks, k)));
    }
  }
  return new Map(plan.ions.map((ion, k) => [ion, grids[k]]));
}

function isOwn(inks: readonly number[], k: number): boolean {
  const most = Math.max(0, ...inks.filter((_, other) => other !== k));
  return (inks[k] ?? 0) >= Math.max(SEEN, OVER_OTHERS * most);
}

/** Mean ink of an ion in a box that is all its own, 0 to 1; undefined where any of the box is not. */
export function ownInk({ columns, rows, ink, own }: InkGrid, { layout: { left, depth } }: Measured, box: Box): number | undefined {
  const [x0, x1] = [Math.floor((box.left - left) / CELL), Math.ceil((box.right - left) / CELL)];
  const [y0, y1] = [Math.floor((box.top - depth.top) / CELL), Math.ceil((box.bottom - depth.top) / CELL)];
  if (x0 < 0 || y0 < 0 || x1 > columns || y1 > rows) return undefined;
  const sum = (of: Float64Array): number => {
    const at = (x: number, y: number): number => of[y * (columns + 1) + x];
    return at(x1, y1) - at(x0, y1) - at(x1, y0) + at(x0, y0);
  };
  const cells = (x1 - x0) * (y1 - y0);
  return sum(own) >= cells - 0.5 ? sum(ink) / cells : undefined;
}

/** Ink of every ion against px from the top, at a px of the volume axis. */
function inksOfColumn({ plan, layout, x, tops }: Measured, px: number): (py: number) => number[] {
  const delivered = x.invert(px);
  if (delivered > deliveredAtEnd(plan)) return () => [];
  const frame = frameAt(plan, delivered);
  const [, ...held] = profilesOf(plan, frame);
  const [top, bottom] = [0, plan.length_cm].map(depthAtFrame({ plan, layout }, frame));
  return (py) => {
    // The cell that the top of the bed crosses is not all bed.
    if (py - CELL / 2 < top) return [];
    const plate = Math.floor(((py - top) / (bottom - top)) * plan.plates);
    // The acid's is the first of the tops.
    return held.map((profile, k) => Math.sqrt(Math.max(0, profile[plate] ?? 0) / tops[k + 1]));
  };
}

function addCell({ columns, ink, own }: InkGrid, column: number, row: number, value: number, owned: boolean) {
  const wide = columns + 1;
  const at = (row + 1) * wide + column + 1;
  for (const [sums, add] of [
    [ink, value],
    [own, owned ? 1 : 0],
  ] as const)
    sums[at] = add + sums[at - 1] + sums[at - wide] - sums[at - wide - 1];
}
