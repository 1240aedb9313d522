// Gravity flow: every lane shares the liquid above and the outlet below; each resists by its own liquid and packing.
import { AT, type Bed, type Column } from '../column/index.ts';
import { tableValue } from '../chemistry/index.ts';
import { power } from '../math/elementary.ts';

/**
 * Superficial velocity of each lane into `bed.velocity` (cm/min) and the total flow, mL/min, for a head of `level` cm.
 * u_i = (rho_top h + sum rho dz + rho_out h_out - R_out Q) / (sum mu dz / k_i), Q = sum A_i u_i (Darcy, common head).
 */
export function flowInto(bed: Bed, column: Column, level: number): number {
  const open = bed.scalar[AT.clampOpen];
  bed.velocity.fill(0);
  if (open <= 0) return 0;
  const tipCell = bed.lanes * bed.plates - 1;
  // g/cm² of the liquid above the bed and of the filled outlet tube.
  const top = level * headDensity(bed, column);
  const below = column.outlet * bed.density[tipCell];
  // The bore of a pinched tube narrows as its opening: Poiseuille drag grows at least as the cube (model).
  const outletDrag = (column.clampDrag * bed.viscosity[tipCell]) / 1.002 / power(open, 3) + bed.scalar[AT.supportClog];
  const dry = level <= 0;
  // A lane whose liquid weighs less than the outlet takes away would run backwards; it stands still and leaves the flow to the others.
  // Without it the others share less, so the limit only rises and the loop ends after at most one pass a lane.
  let lost = 0;
  for (;;) {
    const inOutlet = outletDrag * commonFlow(bed, column, top, below, dry, outletDrag, lost);
    // An outlet that lets nothing through at all (a drag without bound) gives no number here, and no flow.
    if (!(inOutlet > lost) || bed.lanes === 1) return share(bed, column, top, below, dry, inOutlet);
    lost = inOutlet;
  }
}

/** mL/min through the lanes that push harder than `lost` (g/cm²), which all lose the same in the outlet. */
function commonFlow(bed: Bed, column: Column, top: number, below: number, dry: boolean, outletDrag: number, lost: number): number {
  let push = 0;
  let pull = 0;
  for (let i = 0; i < bed.lanes; i++) {
    const pressure = lanePressure(bed, i, top, below, dry);
    if (pressure <= lost) continue;
    push += (column.lanes.area[i] * pressure) / bed.drag[i];
    pull += column.lanes.area[i] / bed.drag[i];
  }
  return push / (1 + outletDrag * pull);
}

function share(bed: Bed, column: Column, top: number, below: number, dry: boolean, lost: number): number {
  let total = 0;
  for (let i = 0; i < bed.lanes; i++) {
    const pressure = lanePressure(bed, i, top, below, dry);
    const velocity = pressure > lost ? (pressure - lost) / bed.drag[i] : 0;
    bed.velocity[i] = velocity;
    total += velocity * column.lanes.area[i];
  }
  return total;
}

/** Driving pressure of a lane; without liquid above it, air holds the lane back until suction exceeds its entry pressure. */
function lanePressure(bed: Bed, lane: number, top: number, below: number, dry: boolean): number {
  if (bed.drained[lane] >= bed.plates) return 0;
  const pressure = top + bed.weight[lane] + below;
  return dry || bed.drained[lane] > 0 ? pressure - top - bed.airEntry[lane] : pressure;
}

/**
 * Superficial velocity (cm/min) above which a thinner, lighter liquid that follows from above under-runs this acid: k g d(rho)/d(mu),
 * Hill 1952, Dumore 1964 (recalled). Below it the interface stays level.
 */
export function fingeringVelocity(column: Column, acid_M: number, following_M: number): number {
  const { density, viscosity } = column.liquid;
  const heavier = tableValue(density, acid_M) - tableValue(density, following_M);
  const thicker = (tableValue(viscosity, acid_M) - tableValue(viscosity, following_M)) * column.viscosityFactor;
  // dragPerCm is 1/k in these units: g/cm² for 1 cm of bed at 1 cm/min and 1 mPa s.
  return heavier / thicker / column.dragPerCm;
}

/** Density of the liquid above the bed, g/mL, from its acid. */
export function headDensity(bed: Bed, column: Column): number {
  const volume = bed.scalar[AT.headVolume];
  if (volume <= 0) return bed.density[0];
  return tableValue(column.liquid.density, bed.head[0] / volume);
}

/** Height of liquid above the bed, cm. */
export function levelOf(bed: Bed, column: Column): number {
  return bed.scalar[AT.headVolume] / column.section;
}
