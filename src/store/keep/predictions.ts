import { ACTIONS_MAX } from '../../../sim/input/log.ts';
import { choice, list, note, number, object, type Shape } from '../../../sim/input/reading.ts';

// What the reader expected before a decisive action, kept with the run. What came of it is read off the run itself.

/** What a prediction was asked before: loading, starting a weaker eluent, changing the receiver, stopping. */
export type Occasion = 'load' | 'eluent' | 'receiver' | 'stop';

export interface Prediction {
  readonly occasion: Occasion;
  /** Index in the log of the action that it was asked before. */
  readonly entry: number;
  /** Delivered volume at which it was asked, mL. */
  readonly asked_mL: number;
  /** Key of the choice taken; empty where a volume was asked for. */
  readonly choice: string;
  /** Volume given, mL, where one was asked for. */
  readonly volume_mL?: number;
  /** In the reader's words or those of a choice. */
  readonly reason: string;
}

const OCCASIONS: readonly Occasion[] = ['load', 'eluent', 'receiver', 'stop'];
export const REASON_MAX = 300;
export const PREDICTIONS_MAX = 40;
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
    { volume_mL: volume },
    'left out',
  ),
  0,
  PREDICTIONS_MAX,
);
