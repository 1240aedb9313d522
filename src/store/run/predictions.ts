import { type Prediction, PREDICTIONS_MAX, runMark } from '../../../sim/handed/index.ts';
import type { Log } from '../../../sim/terms/types.ts';
import type { Json } from '../keep/saved.ts';

// What the reader expected of a run. A prediction belongs to the run in which it was made, up to its action, and to no other.

/** The action that a prediction is asked before. */
const ACTION_OF = { load: 'pour', eluent: 'pour', receiver: 'receiver', stop: 'clamp' } as const;

/** Those of the run with this scenario and log whose action was taken. */
export function predictionsOf(all: readonly Prediction[], json: Json, log: Log): readonly Prediction[] {
  return all.filter(
    ({ entry, occasion, made_in }) => log[entry]?.do === ACTION_OF[occasion] && (made_in === undefined || made_in === runMark(json, log, entry)),
  );
}

/** These and a newer one, which replaces an older one on the same action. */
export function withPrediction(valid: readonly Prediction[], newer: Prediction, json: Json, log: Log): readonly Prediction[] {
  const others = valid.filter(({ entry, occasion }) => entry !== newer.entry || occasion !== newer.occasion);
  return [...others, { ...newer, made_in: runMark(json, log, newer.entry) }].slice(-PREDICTIONS_MAX);
}
