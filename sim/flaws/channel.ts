import type { Bed, Column } from '../column/index.ts';
import type { Fault, Issue } from '../terms/types.ts';
import { renew } from '../packing/index.ts';
import { power } from '../math/elementary.ts';

/** Permeability of a channel at severity 1 over that of the bed beside it (ten times: a slot of half a bead, derived; range estimated). */
export const CHANNEL_MAX = 10;

/** A strip of the bed, from the top down, that lets liquid through more easily; without a side it is the core. */
export function channel(bed: Bed, column: Column, fault: Fault): Issue | undefined {
  if (bed.lanes < 2) return { path: 'bed.lanes', expected: 'at least 2 lanes for a channel', received: '1' };
  const factor = power(CHANNEL_MAX, fault.severity ?? 1);
  const deep = Math.max(1, Math.round((fault.depth_share ?? 1) * bed.plates));
  for (let i = 0; i < bed.lanes; i++) {
    const part = inChannel(bed, column, i, fault.side_deg);
    if (part <= 0) continue;
    for (let j = 0; j < deep; j++) bed.packing[i * bed.plates + j] /= power(factor, part);
  }
  renew(bed, column);
  return undefined;
}

/** 1 in the middle of the channel, falling to 0 a sector and a half away. */
function inChannel(bed: Bed, column: Column, lane: number, side_deg: number | undefined): number {
  if (side_deg === undefined) return lane === 0 ? 1 : 0;
  if (lane === 0) return 0;
  const apart = Math.abs(((column.lanes.angleDeg[lane] - side_deg + 540) % 360) - 180);
  return Math.max(0, 1 - apart / (1.5 * (360 / (bed.lanes - 1))));
}
