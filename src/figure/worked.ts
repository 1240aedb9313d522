import type { Scenario } from '../../sim/terms/types.ts';
import { type Plan, type Track, trackOf } from '../../sim/history/index.ts';
import { type Drawing, volumeScale } from './drawing.ts';
import { layoutOf } from './layout.ts';

/** What is worked out of a run before it is drawn; the same object as long as nothing of it changes. */
export interface Worked extends Drawing {
  readonly end_mL: number;
  readonly tracks: readonly Track[];
}

export interface Size {
  readonly width: number;
  readonly height: number;
  /** Laid out for a run that is seen by eye. */
  readonly byEye?: boolean;
}

export function workedFor(old: Worked | undefined, scenario: Scenario, plan: Plan, size: Size, end_mL: number): Worked {
  const fresh = layoutOf(size.width, size.height, size.byEye);
  const same = old?.layout.width === fresh.width && old.layout.height === fresh.height && old.layout.depth.bottom === fresh.depth.bottom;
  const layout = same ? old.layout : fresh;
  if (old && old.plan === plan && old.scenario === scenario && old.layout === layout && old.end_mL === end_mL) return old;
  const tracks = old?.plan === plan && old.scenario === scenario ? old.tracks : plan.ions.map((ion) => trackOf(plan, ion));
  return { scenario, plan, layout, x: volumeScale(layout, end_mL), end_mL, tracks };
}
