import { AT, type Bed, type Column } from '../column/index.ts';
import { uniform } from '../math/random.ts';
import type { Fault, Issue } from '../terms/types.ts';
import { cellsAbove, mixLiquid, mixResin, type Placed, renew, resize } from '../packing/index.ts';
import { cos, exp } from '../math/elementary.ts';

// A pour that strikes the bed: the middle is dug out, the beads are thrown to the wall, and the top is mixed.

/** Depth dug out of the core, and depth mixed, by the hardest pour, cm (estimate). */
const DUG_CM = 0.3;
const MIXED_CM = 0.5;
/** Volume times fall at which a pour is 63 % as hard as it gets, mL cm (assumed). */
const HARD_ML_CM = 100;
/** Liquid above the bed that takes 63 % of the blow, cm (assumed; a few mm to cm of liquid protect a bed: common practice, no source). */
const PROTECTION_CM = 0.7;
/** Beads of 1.08 to 1.09 g/mL (read for similar resins) float up in stronger acid than this, mol/L, and are dug out twice as easily (assumed). */
const FLOATING_M = 5.5;
/** How much deeper beads lie on one side than on average: nobody pours into the very middle (assumed). */
const LOPSIDED = 0.8;

/** How hard a pour strikes, 0 to 1: grows with volume and fall, less with liquid above the bed. */
export function blow(volume_mL: number, fall_cm: number, level_cm: number, acid_M: number): number {
  const ease = acid_M > FLOATING_M ? 2 : 1;
  return (1 - exp((-ease * volume_mL * Math.max(0, fall_cm)) / HARD_ML_CM)) * exp(-Math.max(0, level_cm) / PROTECTION_CM);
}

/** Digs a crater of this hardness (0 to 1) and mixes what was dug with the liquid above. */
export function digCrater(bed: Bed, column: Column, hardness: number, side_deg: number): void {
  const cells = cellsAbove(bed, column, Math.max(column.dz, MIXED_CM * hardness));
  if (cells.length === 0) return;
  mixResin(bed, column, bed.lanes > 1 ? dug(bed, column, cells, DUG_CM * hardness, side_deg) : cells.map((at) => kept(bed, at)));
  if (bed.lanes > 1)
    resize(
      bed,
      cells.map((at) => ({ ...kept(bed, at), room: roomOf(bed, column, at) })),
    );
  for (const at of cells) bed.packing[at] = Math.max(0.05, bed.resinShare[at]);
  mixLiquid(bed, cells, true);
  bed.scalar[AT.strikes] += 1;
  renew(bed, column);
}

/** A crater imposed: severity is the hardness. */
export function crater(bed: Bed, column: Column, fault: Fault): Issue | undefined {
  digCrater(bed, column, fault.severity ?? 1, fault.side_deg ?? sideOf(column));
  return undefined;
}

/** Side on which a careless pour heaps the beads: the operator's habit, from the seed. */
export function sideOf(column: Column): number {
  return 360 * uniform(column.scenario.seed + 17).value;
}

/** Mixes the top that was loosened before, at every pour. */
export function churn(bed: Bed, column: Column): void {
  const depth = bed.scalar[AT.looseTop];
  if (depth <= 0) return;
  const cells = cellsAbove(bed, column, depth);
  mixResin(
    bed,
    column,
    cells.map((at) => kept(bed, at)),
  );
  mixLiquid(bed, cells, true);
  renew(bed, column);
}

function kept(bed: Bed, at: number): Placed {
  return { at, share: bed.resinShare[at], room: bed.room[at] };
}

/** New shares of resin: out of the core from the top down, onto the sectors, more on one side. */
function dug(bed: Bed, column: Column, cells: readonly number[], depth_cm: number, side_deg: number): Placed[] {
  const { plates } = bed;
  const share = new Map(cells.map((at) => [at, bed.resinShare[at]]));
  let out = depth_cm / column.dz;
  for (const at of cells) {
    if (at >= plates) continue;
    const taken = Math.min(out, 0.9 * (share.get(at) ?? 0));
    share.set(at, (share.get(at) ?? 0) - taken);
    out -= taken;
  }
  const thrown = (depth_cm / column.dz - out) * column.cellVolume[0];
  for (const at of cells) {
    if (at < plates) continue;
    const lane = Math.floor(at / plates);
    const depth = cells.filter((other) => Math.floor(other / plates) === lane).length;
    const towards = 1 + LOPSIDED * cos(((column.lanes.angleDeg[lane] - side_deg) * Math.PI) / 180);
    share.set(at, (share.get(at) ?? 0) + (thrown * towards) / (bed.lanes - 1) / depth / column.cellVolume[lane]);
  }
  return cells.map((at) => ({ at, share: share.get(at) ?? 0, room: bed.room[at] }));
}

/** A cell with less resin holds liquid instead; one with more stands for a longer one. */
function roomOf(bed: Bed, column: Column, at: number): number {
  const cell = column.cellVolume[Math.floor(at / bed.plates)];
  const share = bed.resinShare[at];
  return share < 1 ? cell * (1 - (1 - column.porosity) * share) : cell * column.porosity * share;
}
