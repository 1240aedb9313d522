import { AT, type Bed, type Column } from '../column/index.ts';
import type { Issue } from '../terms/types.ts';
import { renew, resize } from '../packing/index.ts';

/** Adds fresh wet resin where the bed has lost some, from the top down, up to a volume of bed (mL). It brings no acid and no metals. */
export function topUp(bed: Bed, column: Column, resin_mL: number): Issue | undefined {
  if (!(resin_mL > 0)) return { path: 'resin_mL', expected: 'more than 0 mL', received: `${resin_mL} mL` };
  const missing = missingResin(bed, column);
  if (missing < 1e-9) return { path: 'do', expected: 'a hollow in the bed to fill', received: 'a full bed' };
  const share = Math.min(1, resin_mL / missing);
  for (let at = 0; at < bed.resinShare.length; at++) {
    const lack = lackOf(bed, at);
    if (lack <= 0) continue;
    const cell = column.cellVolume[Math.floor(at / bed.plates)];
    bed.resinShare[at] += lack * share;
    bed.packing[at] = bed.resinShare[at];
    resize(bed, [{ at, share: bed.resinShare[at], room: cell * (1 - (1 - column.porosity) * bed.resinShare[at]) }]);
  }
  bed.scalar[AT.looseTop] = 0;
  renew(bed, column);
  return undefined;
}

/** mL of bed that cells have lost; a short lane of a tilted bed is not hollow. */
export function missingResin(bed: Bed, column: Column): number {
  let volume = 0;
  for (let at = 0; at < bed.resinShare.length; at++) volume += lackOf(bed, at) * column.cellVolume[Math.floor(at / bed.plates)];
  return volume;
}

/** A hollow cell has more room than resin of its share would leave. */
function lackOf(bed: Bed, at: number): number {
  const lowest = bed.room[Math.floor(at / bed.plates) * bed.plates + bed.plates - 1];
  return bed.room[at] > 1.0001 * lowest && bed.resinShare[at] < 0.9999 ? 1 - bed.resinShare[at] : 0;
}
