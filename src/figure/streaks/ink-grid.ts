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
  const inks = new Float64Array(plan.ions.length);
  for (let column = 0; column < columns; column++) {
    const inkInto = inksOfColumn(measured, layout.left + (column + 0.5) * CELL);
    for (let row = 0; row < rows; row++) {
      inkInto(layout.depth.top + (row + 0.5) * CELL, inks);
      const at = (row + 1) * (columns + 1) + column + 1;
      for (const [k, { ink, own }] of grids.entries()) {
        addCell(ink, at, columns, inks[k]);
        addCell(own, at, columns, isOwn(inks, k) ? 1 : 0);
      }
    }
  }
  return new Map(plan.ions.map((ion, k) => [ion, grids[k]]));
}

function isOwn(inks: Float64Array, k: number): boolean {
  const mine = inks[k];
  if (mine < SEEN) return false;
  for (let other = 0; other < inks.length; other++) if (other !== k && mine < OVER_OTHERS * inks[other]) return false;
  return true;
}

/** Mean ink of an ion in a box that is all its own, 0 to 1; undefined where any of the box is not. */
export function ownInk({ columns, rows, ink, own }: InkGrid, { layout: { left, depth } }: Measured, box: Box): number | undefined {
  const [x0, x1] = [Math.floor((box.left - left) / CELL), Math.ceil((box.right - left) / CELL)];
  const [y0, y1] = [Math.floor((box.top - depth.top) / CELL), Math.ceil((box.bottom - depth.top) / CELL)];
  if (x0 < 0 || y0 < 0 || x1 > columns || y1 > rows) return undefined;
  const cells = (x1 - x0) * (y1 - y0);
  // Corners of the box in the sums.
  const [high, low] = [y0 * (columns + 1), y1 * (columns + 1)];
  const sum = (of: Float64Array): number => of[low + x1] - of[high + x1] - of[low + x0] + of[high + x0];
  return sum(own) >= cells - 0.5 ? sum(ink) / cells : undefined;
}

/** Puts the ink of every ion at a px from the top into an array, at a px of the volume axis; none where no bed is. */
function inksOfColumn({ plan, layout, x, tops }: Measured, px: number): (py: number, inks: Float64Array) => void {
  const delivered = x.invert(px);
  if (delivered > deliveredAtEnd(plan)) return (_, inks) => inks.fill(0);
  const frame = frameAt(plan, delivered);
  const [, ...held] = profilesOf(plan, frame);
  const [top, bottom] = [0, plan.length_cm].map(depthAtFrame({ plan, layout }, frame));
  return (py, inks) => {
    // The cell that the top of the bed crosses is not all bed.
    if (py - CELL / 2 < top) return void inks.fill(0);
    const plate = Math.floor(((py - top) / (bottom - top)) * plan.plates);
    // The acid's is the first of the tops.
    for (let k = 0; k < inks.length; k++) inks[k] = Math.sqrt(Math.max(0, held[k][plate] ?? 0) / tops[k + 1]);
  };
}

/** Sums from the top left corner, one cell further. */
function addCell(sums: Float64Array, at: number, columns: number, value: number) {
  const above = at - columns - 1;
  sums[at] = value + sums[at - 1] + sums[above] - sums[above - 1];
}
