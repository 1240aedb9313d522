import type { Issue } from '../../../sim/terms/types.ts';
import { isObject, issue } from './checks.ts';

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

const OCCASIONS: readonly string[] = ['load', 'eluent', 'receiver', 'stop'];
export const REASON_MAX = 300;
const PREDICTIONS_MAX = 40;
const VOLUME_MAX_ML = 10_000;

/** Everything wrong with kept predictions; none is one, too. */
export function predictionIssues(value: unknown): Issue[] {
  if (value === undefined) return [];
  if (!Array.isArray(value) || value.length > PREDICTIONS_MAX) return [issue('predictions', `a list of at most ${PREDICTIONS_MAX}`, value)];
  return value.flatMap((one: unknown, place) => {
    const path = `predictions[${place}]`;
    if (!isObject(one)) return [issue(path, 'an object', one)];
    const { occasion, entry, asked_mL, choice, volume_mL, reason } = one;
    return [
      ...(typeof occasion === 'string' && OCCASIONS.includes(occasion) ? [] : [issue(`${path}.occasion`, `one of ${OCCASIONS.join(', ')}`, occasion)]),
      ...(Number.isInteger(entry) && Number(entry) >= 0 ? [] : [issue(`${path}.entry`, 'a whole number from 0', entry)]),
      ...(isVolume(asked_mL) ? [] : [issue(`${path}.asked_mL`, `0 to ${VOLUME_MAX_ML} mL`, asked_mL)]),
      ...(isText(choice) ? [] : [issue(`${path}.choice`, 'text', choice)]),
      ...(volume_mL === undefined || isVolume(volume_mL) ? [] : [issue(`${path}.volume_mL`, `0 to ${VOLUME_MAX_ML} mL`, volume_mL)]),
      ...(isText(reason) ? [] : [issue(`${path}.reason`, `text of at most ${REASON_MAX} characters`, reason)]),
    ];
  });
}

function isVolume(value: unknown): boolean {
  return typeof value === 'number' && value >= 0 && value <= VOLUME_MAX_ML;
}

function isText(value: unknown): boolean {
  return typeof value === 'string' && value.length <= REASON_MAX;
}
