import type { Standing } from './portion.ts';
import { LOW_MM } from './portion.ts';

// Whether anything happens if nothing more is done.

/** cm above the last millimetre that count as there. */
const NEAR_CM = 0.02;

export type Stillness = 'shut' | 'drained' | undefined;

/** Why nothing flows: the clamp is shut, or the liquid stands at the bed top and the bed holds it. */
export function stillness({ clampOpen, level_cm, flow }: Pick<Standing, 'clampOpen' | 'level_cm' | 'flow'>): Stillness {
  if (clampOpen <= 0) return 'shut';
  return level_cm <= 0 && flow <= 0 ? 'drained' : undefined;
}

/** Minutes until the liquid above the bed is low, at the flow of now; undefined where nothing flows or it is low already. */
export function minutesToLow({ level_cm, headVolume, flow }: Pick<Standing, 'headVolume' | 'level_cm' | 'flow'>): number | undefined {
  const above = level_cm - LOW_MM / 10;
  return flow > 0 && above > NEAR_CM ? (headVolume * above) / level_cm / flow : undefined;
}
