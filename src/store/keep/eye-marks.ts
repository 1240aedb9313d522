import { runMark } from '../../../sim/handed/index.ts';
import { ACTIONS_MAX, list, note, number, object, type Shape } from '../../../sim/input/index.ts';
import type { Log } from '../../../sim/terms/types.ts';

// Predictions set by eye on the empty axis, kept with the run that they were made in.

export interface EyeMark {
  /** Delivered volume that is meant, mL. */
  readonly mL: number;
  /** Depth of the leading edge then, cm; without it, where the metal begins to leave. */
  readonly depth_cm?: number;
  /** Number of actions taken when it was set, and the run up to there; see `runMark`. */
  readonly entry: number;
  readonly made_in: string;
}

/** Most marks kept for a run; the oldest are dropped first. */
const MARKS_MAX = 12;
const MARK_LENGTH = 8;
const mL = number({ min: 0, max: 10_000, unit: 'mL' });

export const eyeMarksShape: Shape<readonly EyeMark[]> = list(
  'marks',
  object(
    'a mark',
    { mL, entry: number({ min: 0, max: ACTIONS_MAX, unit: '', integer: true }), made_in: note(MARK_LENGTH) },
    { depth_cm: number({ min: 0, max: 1000, unit: 'cm' }) },
    'left out',
  ),
  0,
  MARKS_MAX,
);

/** The marks and one more; a mark ahead of `now_mL` replaces an older one of its kind that is also still ahead. */
export function withMark(marks: readonly EyeMark[], mark: EyeMark, now_mL: number): readonly EyeMark[] {
  const kind = ({ depth_cm }: EyeMark): boolean => depth_cm !== undefined;
  return [...marks.filter((other) => other.mL <= now_mL || kind(other) !== kind(mark)), mark].slice(-MARKS_MAX);
}

/** Those that were made in this run: not those of another column, nor of actions that were undone. */
export function marksOfRun(marks: readonly EyeMark[], scenario: unknown, log: Log): readonly EyeMark[] {
  return marks.filter(({ entry, made_in }) => entry <= log.length && made_in === runMark(scenario, log, entry - 1));
}
