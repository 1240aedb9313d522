// Properties of a cell that follow from its acid, and what they add up to in a lane.
import type { Bed } from './bed.ts';
import type { Column } from './column.ts';
import { saltOf, TABLE_STEPS, tableIndex } from '../chemistry/index.ts';

/** Recomputes what depends on the acid of a cell: distribution coefficients, density, viscosity. */
export function refresh(bed: Bed, column: Column, at: number, acid: number): void {
  const cells = bed.lanes * bed.plates;
  const x = tableIndex(acid);
  const i = x < TABLE_STEPS ? Math.floor(x) : TABLE_STEPS - 1;
  const t = x - i;
  const { rows } = column;
  const { coion, exchange, bead } = bed;
  const resin = bed.resinShare[at];
  const metals = bed.components - 1;
  const width = 3 * metals + 2;
  let x0 = i * width;
  for (let k = at; k < metals * cells; k += cells, x0 += 3) {
    const x1 = x0 + width;
    coion[k] = resin * (rows[x0] + t * (rows[x1] - rows[x0]));
    exchange[k] = resin * (rows[x0 + 1] + t * (rows[x1 + 1] - rows[x0 + 1]));
    bead[k] = rows[x0 + 2] + t * (rows[x1 + 2] - rows[x0 + 2]);
  }
  bed.density[at] = rows[x0] + t * (rows[x0 + width] - rows[x0]);
  bed.viscosity[at] = (rows[x0 + 1] + t * (rows[x0 + 1 + width] - rows[x0 + 1])) * column.viscosityFactor;
  bed.salt[at] = saltOf(acid, column.fixedCharge, column.invasion);
  bed.seen[at] = acid;
}

/** Sums a lane's weight and drag over its wet cells, g/cm² and (g/cm²)/(cm/min). */
export function weighLane(bed: Bed, column: Column, lane: number): void {
  const { density, viscosity, resistance, height, swollen } = bed;
  const base = lane * bed.plates;
  let weight = 0;
  let drag = 0;
  for (let j = bed.drained[lane]; j < bed.plates; j++) {
    weight += density[base + j] * height[base + j];
    // A shrunk stretch is shorter, and its beads and pores are narrower: L/d² goes as L^(1/3), here to first order.
    drag += viscosity[base + j] * resistance[base + j] * ((2 + swollen[base + j]) / 3);
  }
  bed.weight[lane] = weight * column.dz;
  bed.drag[lane] = (drag * column.dz * column.dragPerCm) / column.lanes.permeability[lane];
}
