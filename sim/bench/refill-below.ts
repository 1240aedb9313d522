import { AT, type Bed, type Column } from '../column/index.ts';
import type { Issue } from '../terms/types.ts';
import { renew, setGas } from '../packing/index.ts';

/** Lets liquid rise slowly from the outlet: it takes the place of gas, and what is more goes on into the liquid above the bed. */
export function refillFromBelow(bed: Bed, column: Column, liquid: Float64Array, volume_mL: number): Issue | undefined {
  const s = bed.scalar;
  if (s[AT.clampOpen] > 0)
    return { path: 'do', expected: 'the clamp shut before liquid is led in from below', received: `${(100 * s[AT.clampOpen]).toFixed(0)} % open` };
  const gas = gasVolume(bed);
  const over = s[AT.headVolume] + Math.max(0, volume_mL - gas) - column.headMax;
  if (over > 1e-9) return { path: 'volume_mL', expected: `at most ${(volume_mL - over).toFixed(2)} mL before the tube overflows`, received: `${volume_mL} mL` };
  const filled = gas > 0 ? Math.min(1, volume_mL / gas) : 0;
  const extra = Math.max(0, volume_mL - gas);
  const entering = throughTip(bed, column, liquid, volume_mL);
  let drawn = 0;
  for (let i = 0; i < bed.lanes; i++) {
    const had = Float64Array.from({ length: bed.plates }, (_, j) => bed.gas[i * bed.plates + j]);
    drawn += setGas(bed, i, (j) => had[j] * (1 - filled), (extra * column.lanes.area[i]) / column.section, entering);
  }
  // What the bed drew differs from the volume by rounding, and what it drew beyond came out of the tip.
  for (let k = 0; k < bed.components; k++) bed.pouredAmount[k] += liquid[k] * volume_mL + entering[k] * (drawn - volume_mL);
  s[AT.poured] += drawn;
  renew(bed, column);
  return undefined;
}

/** mL of gas between the beads. */
export function gasVolume(bed: Bed): number {
  let volume = 0;
  for (let at = 0; at < bed.gas.length; at++) volume += bed.gas[at] * bed.room[at];
  return volume;
}

/** Rinses the dead volume upwards, each stage mixing with what passes; returns what enters the bed, mol/L. */
function throughTip(bed: Bed, column: Column, liquid: Float64Array, volume: number): Float64Array {
  const stage = column.scenario.values['column.tip_mL'] / bed.stages;
  return liquid.map((fresh, k) => {
    let c = fresh;
    for (let n = bed.stages - 1; n >= 0; n--) {
      const x = k * bed.stages + n;
      c = (bed.tip[x] * stage + c * volume) / (stage + volume);
      bed.tip[x] = c;
    }
    return c;
  });
}
