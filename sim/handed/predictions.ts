import { ACTIONS_MAX, choice, list, note, number, object, type Shape } from '../input/index.ts';
import { fingerprint } from '../math/fingerprint.ts';
import type { Log } from '../terms/types.ts';

// What the reader expected before a decisive action, kept with the run. The outcome is read from the run itself.

/** What a prediction was asked before: loading, starting a weaker eluent, changing the receiver, stopping. */
export type Occasion = 'load' | 'eluent' | 'receiver' | 'stop';

export interface Prediction {
  readonly occasion: Occasion;
  /** Index in the log of the action that it was asked before. */
  readonly entry: number;
  /** Delivered volume at which it was asked, mL. */
  readonly asked_mL: number;
  /** Key of the choice taken; empty where the answer is a volume. */
  readonly choice: string;
  /** Volume given, mL, where the answer is a volume. */
  readonly volume_mL?: number;
  /** In the reader's words or those of a choice. */
  readonly reason: string;
  /** The run that it was made in, up to its action; see `runMark`. Left out in runs kept by older pages. */
  readonly made_in?: string;
}

/** Tells one run from another up to an action: the text of its scenario and log, in 32 bits. */
export function runMark(scenario: unknown, log: Log, entry: number): string {
  const mark = fingerprint(JSON.stringify([scenario, log.slice(0, entry + 1)]));
  return (mark >>> 0).toString(16).padStart(8, '0');
}

const OCCASIONS: readonly Occasion[] = ['load', 'eluent', 'receiver', 'stop'];
export const REASON_MAX = 300;
export const PREDICTIONS_MAX = 40;
const MARK_LENGTH = 8;
const volume = number({ min: 0, max: 10_000, unit: 'mL' });

export const predictionsShape: Shape<readonly Prediction[]> = list(
  'predictions',
  object(
    'a prediction',
    {
      occasion: choice('an occasion', OCCASIONS),
      entry: number({ min: 0, max: ACTIONS_MAX, unit: '', integer: true }),
      asked_mL: volume,
      choice: note(REASON_MAX),
      reason: note(REASON_MAX),
    },
    { volume_mL: volume, made_in: note(MARK_LENGTH) },
    'left out',
  ),
  0,
  PREDICTIONS_MAX,
);
