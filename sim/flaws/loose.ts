import { AT, type Bed, type Column, kozenyCarman } from '../column/index.ts';
import type { Fault, Issue } from '../terms/types.ts';
import { cellsAbove, renew, resize } from '../packing/index.ts';

/** Porosity of a loosened top (estimate; random loose packing 0.40 to 0.42, fluidised more). */
const LOOSE_POROSITY = 0.45;
/** Depth loosened at severity 1, cm (estimate). */
export const LOOSE_MAX_CM = 1;

/** A top that was never settled: wider pores, and every pour mixes it. A loose cell keeps its resin and stands for a longer one. */
export function looseTop(bed: Bed, column: Column, fault: Fault): Issue | undefined {
  const depth = (fault.severity ?? 1) * LOOSE_MAX_CM;
  if (depth <= 0) return undefined;
  const cells = cellsAbove(bed, column, depth);
  const e = column.porosity;
  const longer = (1 - e) / (1 - LOOSE_POROSITY);
  const easier = longer * (kozenyCarman(1, e, 1) / kozenyCarman(1, LOOSE_POROSITY, 1));
  resize(
    bed,
    cells.map((at) => ({ at, share: bed.resinShare[at], room: (bed.room[at] * longer * LOOSE_POROSITY) / e })),
  );
  for (const at of cells) bed.packing[at] *= easier;
  bed.scalar[AT.looseTop] = Math.max(bed.scalar[AT.looseTop], depth);
  renew(bed, column);
  return undefined;
}
