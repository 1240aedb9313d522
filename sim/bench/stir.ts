import { AT, type Bed, type Column, lanesOf } from '../column/index.ts';
import { isDrained, levelOf, refill } from '../flow/index.ts';
import type { Issue } from '../terms/types.ts';
import { mixLiquid, mixResin, type Placed, renew } from '../packing/index.ts';

/** Liquid above the bed, in bed heights, without which the beads cannot be stirred up (common practice, no source). */
const LIQUID_NEEDED = 0.5;

/** Stirs up the whole bed and lets it settle: one composition, no gas, no cracks, no crater, another packing of the same quality. */
export function stir(bed: Bed, column: Column): Issue | undefined {
  const s = bed.scalar;
  if (s[AT.clampOpen] > 0)
    return { path: 'do', expected: 'the clamp shut before the bed is stirred', received: `${(100 * s[AT.clampOpen]).toFixed(0)} % open` };
  const level = levelOf(bed, column);
  if (level < LIQUID_NEEDED * column.length - 1e-9) {
    return {
      path: 'do',
      expected: `at least ${(10 * LIQUID_NEEDED * column.length).toFixed(0)} mm of liquid above the bed`,
      received: `${(10 * level).toFixed(1)} mm`,
    };
  }
  refill(bed, column);
  if (isDrained(bed)) return { path: 'do', expected: 'a bed full of liquid', received: 'drained cells' };
  s[AT.stirs] += 1;
  freeLiquid(bed, column);
  mixAll(bed, column);
  repack(bed, column);
  renew(bed, column);
  return undefined;
}

/** All liquid moves again, gas rises out, liquid from above takes its place. */
function freeLiquid(bed: Bed, column: Column): void {
  const cells = bed.lanes * bed.plates;
  for (let at = 0; at < cells; at++) {
    const room = column.cellVolume[Math.floor(at / bed.plates)] * column.porosity;
    const held = bed.mobile[at] + bed.stillVolume[at];
    const head = bed.scalar[AT.headVolume];
    const wanted = room - held;
    for (let k = 0; k < bed.components; k++) {
      const x = k * cells + at;
      const amount = bed.pore[x] * bed.mobile[at] + bed.still[x] * bed.stillVolume[at];
      const moved = wanted > 0 ? (bed.head[k] * wanted) / head : (amount * wanted) / held;
      bed.head[k] = Math.max(0, bed.head[k] - moved);
      bed.pore[x] = (amount + moved) / room;
      bed.still[x] = 0;
    }
    bed.scalar[AT.headVolume] -= wanted;
    bed.mobile[at] = room;
    bed.room[at] = room;
  }
  bed.stillVolume.fill(0);
  bed.gas.fill(0);
}

function mixAll(bed: Bed, column: Column): void {
  const cells: Placed[] = [];
  for (let at = 0; at < bed.lanes * bed.plates; at++) cells.push({ at, share: 1, room: bed.room[at] });
  mixResin(bed, column, cells);
  mixLiquid(
    bed,
    cells.map(({ at }) => at),
    true,
  );
}

/** A packing as even as the scenario says, with other lanes loose and tight. */
function repack(bed: Bed, column: Column): void {
  const s = bed.scalar;
  const drawn = lanesOf(column.scenario.values, column.scenario.seed + 1_000_003 * s[AT.stirs]).permeability;
  for (let i = 0; i < bed.lanes; i++) bed.packing.fill(column.lanes.permeability[i] / drawn[i], i * bed.plates, (i + 1) * bed.plates);
  bed.crack.fill(0);
  bed.cracked.fill(0);
  bed.airEntry.set(column.airEntry);
  s[AT.looseTop] = 0;
  s[AT.imposed] = 0;
  s[AT.drainings] = 0;
  s[AT.dryMinutes] = 0;
  s[AT.uneven] = 0;
}
