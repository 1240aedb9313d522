// The state a run begins with: a packed, wet bed under a little of the liquid it was stored in.
import { AT, type Bed, bedFor } from './bed.ts';
import type { Column } from './column.ts';
import { invasion } from '../chemistry/index.ts';
import { refresh, weighLane } from './cell.ts';
import { swollen } from './swelling.ts';

/** A packed bed at rest with the clamp shut and the first receiver under the tip. */
export function packedBed(column: Column): Bed {
  const bed = bedFor(column.scenario, column.lanes);
  const acid = column.scenario.values['bench.start_HCl_M'];
  const scalar = bed.scalar;
  scalar[AT.receivers] = 1;
  scalar[AT.entryTime] = -1;
  scalar[AT.feedLiquid] = -1;
  scalar[AT.headVolume] = Math.min(column.headMax, (column.section * column.scenario.values['bench.start_head_mm']) / 10);
  scalar[AT.lowestHead] = scalar[AT.headVolume];
  bed.head[0] = scalar[AT.headVolume] * acid;
  bed.tip.subarray(0, bed.stages).fill(acid);
  bed.seen.fill(-1);
  bed.invadedAt.fill(-1);
  scalar[AT.shrinkage] = column.scenario.values['resin.shrinkage'];
  scalar[AT.portions] = 1;
  bed.height.fill(1);
  bed.swollen.fill(swollen(scalar[AT.shrinkage], acid));
  bed.resinShare.fill(1);
  bed.ahead.fill(1);
  bed.reach.fill(-1);
  bed.packing.fill(1);
  bed.resistance.fill(1);
  bed.airEntry.set(column.airEntry);
  bed.first.fill(bed.plates);
  bed.last.fill(-1);
  for (let i = 0; i < bed.lanes; i++) wetLane(bed, column, i, acid);
  if (column.scenario.values['bench.packed'] === 0) takeOut(bed, column);
  bed.pouredAmount[0] = amountOf(bed, column, 0);
  return bed;
}

/** The empty tube: no resin, nothing above; the cells stay, full of liquid, until resin is poured. */
function takeOut(bed: Bed, column: Column): void {
  bed.scalar[AT.portions] = 0;
  bed.scalar[AT.headVolume] = 0;
  bed.scalar[AT.lowestHead] = 0;
  bed.head.fill(0);
  bed.height.fill(0);
  bed.resinShare.fill(0);
  bed.sorbed.fill(0);
  for (let i = 0; i < bed.lanes; i++) weighLane(bed, column, i);
}

/** HCl that sound beads hold at rest in acid, mmol per mL of bed. */
export function restingAcid(column: Column, acid_M: number): number {
  return column.resinPore * invasion(acid_M, column.fixedCharge, column.invasion);
}

function wetLane(bed: Bed, column: Column, lane: number, acid: number): void {
  for (let at = lane * bed.plates; at < (lane + 1) * bed.plates; at++) {
    bed.room[at] = column.cellVolume[lane] * column.porosity;
    bed.mobile[at] = bed.room[at];
    bed.pore[at] = acid;
    bed.sorbed[at] = restingAcid(column, acid);
    refresh(bed, column, at, acid);
  }
  weighLane(bed, column, lane);
}

/** mmol of a component in the column now: head, liquid, beads and tip. */
export function amountOf(bed: Bed, column: Column, component: number): number {
  return bed.head[component] + onBed(bed, column, component) + inTip(bed, column, component);
}

/** mmol of a component in the bed, with compensated summation (Neumaier 1974). */
export function onBed(bed: Bed, column: Column, component: number): number {
  const cells = bed.lanes * bed.plates;
  let sum = 0;
  let lost = 0;
  for (let i = 0; i < bed.lanes; i++) lost += bed.dust[component * bed.lanes + i];
  for (let at = 0; at < cells; at++) {
    const k = component * cells + at;
    const term = bed.pore[k] * bed.mobile[at] + bed.still[k] * bed.stillVolume[at] + bed.sorbed[k] * column.cellVolume[Math.floor(at / bed.plates)];
    const next = sum + term;
    lost += Math.abs(sum) >= Math.abs(term) ? sum - next + term : term - next + sum;
    sum = next;
  }
  return sum + lost;
}

/** mmol of a component in the dead volume below the bed. */
export function inTip(bed: Bed, column: Column, component: number): number {
  const stage = column.scenario.values['column.tip_mL'] / bed.stages;
  let sum = 0;
  for (let n = 0; n < bed.stages; n++) sum += bed.tip[component * bed.stages + n] * stage;
  return sum;
}
