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
  const resin = bed.resinShare[at];
  for (let s = 0; s < bed.components - 1; s++) {
    const { coion, exchange, bead } = column.tables[s];
    bed.coion[s * cells + at] = resin * (coion[i] + t * (coion[i + 1] - coion[i]));
    bed.exchange[s * cells + at] = resin * (exchange[i] + t * (exchange[i + 1] - exchange[i]));
    bed.bead[s * cells + at] = bead[i] + t * (bead[i + 1] - bead[i]);
  }
  const { density, viscosity } = column.liquid;
  bed.density[at] = density[i] + t * (density[i + 1] - density[i]);
  bed.viscosity[at] = (viscosity[i] + t * (viscosity[i + 1] - viscosity[i])) * column.viscosityFactor;
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
