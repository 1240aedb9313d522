// What keeps a run finite: a longest time, a budget of work, and frames that grow rarer.
import { AT, type Bed } from '../column/index.ts';
import { RUN_MAX_MIN } from '../terms/limits.ts';

/** Most work of one run, in cells times components of a step: about 80 default runs, half a minute to a minute of computing. */
export const WORK_MAX = 1e9;
/** What a step costs beside its cells, in the same unit. */
const STEP_WORK = 1000;
/** Frames kept before they grow rarer, and numbers of their profiles. */
const FRAMES = 4000;
const PROFILE_NUMBERS = 4e6;

/** How the note begins with which a run ends by itself. */
export const RUN_ENDED = 'run ended';

/** Work of one step. */
export function workOf(bed: Bed): number {
  return STEP_WORK + bed.lanes * bed.plates * bed.components;
}

/** Why the run can go no further; undefined while it can. */
export function endOf(bed: Bed): string | undefined {
  const s = bed.scalar;
  if (s[AT.time] >= RUN_MAX_MIN) return `${RUN_ENDED}: ${RUN_MAX_MIN} min is the longest run`;
  if (s[AT.work] < WORK_MAX) return undefined;
  return `${RUN_ENDED}: it asks for more computing than a run may take (${s[AT.steps]} steps of ${bed.lanes * bed.plates} cells so far); take fewer cells (bed.plates, bed.lanes), longer steps (numerics.courant, numerics.step_max_min) or less volume`;
}

/** mL between frames: the scenario's own, doubled as often as it takes to keep a very long run drawable. */
export function frameSpacing(bed: Bed, asked_mL: number): number {
  const frames = Math.min(FRAMES, Math.floor(PROFILE_NUMBERS / (bed.components * bed.plates)));
  let spacing = asked_mL;
  while (bed.scalar[AT.delivered] > frames * spacing) spacing *= 2;
  return spacing;
}

/** Longest model time between frames while nothing is delivered, min: a thousandth of a long run. */
export function stillSpacing(time_min: number): number {
  return Math.max(1, time_min / 1000);
}
