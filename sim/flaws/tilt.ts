import type { Bed, Column } from '../column/index.ts';
import type { Fault, Issue } from '../terms/types.ts';
import { mixResin, type Placed, renew, resize } from '../packing/index.ts';
import { cos, power, tan } from '../math/elementary.ts';

/** Slope of the bed top at severity 1, degrees (range 0 to 30 assumed). */
export const TILT_MAX_DEG = 30;

/**
 * A bed top that slopes down towards a side. A lane of length L + x tan a is kept as the same number of cells, each with
 * that much more or less resin, liquid and resistance: u goes as 1/L and the transit time as L², as with a common head.
 */
export function tilt(bed: Bed, column: Column, fault: Fault): Issue | undefined {
  if (bed.lanes < 2) return { path: 'bed.lanes', expected: 'at least 2 lanes for a tilted bed', received: '1' };
  const lengths = laneLengths(column, (fault.severity ?? 1) * TILT_MAX_DEG, fault.side_deg ?? 0);
  for (let j = 0; j < bed.plates; j++) {
    const row: Placed[] = [];
    for (let i = 0; i < bed.lanes; i++) {
      const at = i * bed.plates + j;
      row.push({ at, share: bed.resinShare[at] * lengths[i], room: bed.room[at] * lengths[i] });
      bed.packing[at] *= lengths[i];
    }
    mixResin(bed, column, row);
    resize(bed, row);
  }
  renew(bed, column);
  return undefined;
}

/** Length of each lane over that of the level bed; the lower side, at `side_deg`, is short. */
export function laneLengths(column: Column, angleDeg: number, side_deg: number): Float64Array {
  const { lanes, scenario, length } = column;
  const outer = scenario.values['column.bore_cm'] / 2;
  const inner = outer * Math.sqrt(scenario.values['bed.core_share']);
  // Mean distance of the ring's cross-section from the axis, along the direction of each sector.
  const away = ((2 / 3) * (power(outer, 3) - power(inner, 3))) / (outer * outer - inner * inner);
  const slope = tan((angleDeg * Math.PI) / 180);
  return lanes.angleDeg.map((angle, i) => (i === 0 ? 1 : Math.max(0.1, 1 - (away * cos(((angle - side_deg) * Math.PI) / 180) * slope) / length)));
}
