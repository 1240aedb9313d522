import type { Scenario } from '../../../sim/terms/types.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { dropAt } from '../../store/drop.ts';
import type { Layout } from '../layout.ts';
import { fallen, hangingShare } from './motion.ts';

// What leaves the tip: a drop that grows, one that falls, or a stream.

export interface Dripping {
  readonly hanging: boolean;
  /** Seconds since the last drop let go, if it still falls. */
  readonly falling_s: number | undefined;
  readonly streaming: boolean;
}

/** Largest radius of a drop, px. */
const RADIUS_MAX = 8;

/** Radius of the drop that hangs, y and radius of the one that falls, y where a stream ends: px, 0 for none. */
export function dropShape(
  { hanging, falling_s, streaming }: Dripping,
  shown: { scenario: Scenario; moment: Moment },
  layout: Layout,
  surface: number,
): number[] {
  const drop_mL = dropAt(shown.scenario, shown.moment);
  const radius = Math.min(RADIUS_MAX, (diameterCm(drop_mL) / 2) * layout.pxPerCm * layout.widening);
  if (streaming) return [0, 0, 0, surface];
  const from = layout.tip + 1.6 * radius;
  const held = hanging ? radius * Math.cbrt(hangingShare(shown.moment.delivered_mL, drop_mL)) : 0;
  return falling_s === undefined ? [held, 0, 0, 0] : [held, from + (surface - from) * fallen(falling_s), radius, 0];
}

/** Diameter (cm) of a ball of the volume of a drop. */
export function diameterCm(drop_mL: number): number {
  return Math.cbrt((6 * drop_mL) / Math.PI);
}
