import { SEED_MAX } from '../../../sim/math/random.ts';
import type { Issue, Log } from '../../../sim/terms/types.ts';
import { isObject, issue } from './checks.ts';
import { type Mystery, mysteryIssues } from './mystery.ts';
import { type Prediction, predictionIssues } from './predictions.ts';
import { type SavedWorkUp, workUpIssues } from './work-up.ts';

// A run as it is kept outside the page: in storage, in a link, in a file. A run is scenario + log + seed, so this is all of it.

/** Any JSON value. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

export interface SavedRun {
  /** Id of the scenario that ships with the page. */
  readonly base: string;
  /** What differs from that scenario, a JSON merge patch; see `difference.ts`. */
  readonly differences: Json;
  readonly seed: number;
  readonly log: Log;
  /** How far the run was played, min of model time; without it, to its start. */
  readonly now_min?: number;
  /** View on screen. */
  readonly view?: string;
  /** What the reader expected before decisive actions. Kept here and in files; a link does not pass them on. */
  readonly predictions?: readonly Prediction[];
  /** There when the faults were hidden, with what the reader said. */
  readonly mystery?: Mystery;
  /** What was done with a receiver on the work-up bench. Kept here and in files, like the predictions. */
  readonly workup?: SavedWorkUp;
}

export type Outcome<Value> = { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly message: string };

export type Reading<Value> = { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly issues: readonly Issue[] };

/** Longest model time a kept run may have been played, min: a week. */
const NOW_MAX = 10_080;

/**
 * Checks the frame of a saved run. Scenario values and the single actions are checked where they are applied, by the
 * scenario reader and the run, which know the liquids and ranges.
 */
export function readSaved(value: unknown): Reading<SavedRun> {
  if (!isObject(value)) return { ok: false, issues: [issue('run', 'an object', value)] };
  const { base, differences = {}, seed, log, now_min, view, predictions, mystery, workup } = value;
  const issues = [
    ...(typeof base === 'string' && base !== '' ? [] : [issue('base', 'id of a scenario', base)]),
    ...(isObject(differences) ? [] : [issue('differences', 'an object', differences)]),
    ...(isSeed(seed) ? [] : [issue('seed', `a whole number from 0 to ${SEED_MAX}`, seed)]),
    ...(now_min === undefined || (typeof now_min === 'number' && now_min >= 0 && now_min <= NOW_MAX) ? [] : [issue('now_min', `0 to ${NOW_MAX} min`, now_min)]),
    ...(view === undefined || typeof view === 'string' ? [] : [issue('view', 'name of a view', view)]),
    ...predictionIssues(predictions),
    ...mysteryIssues(mystery),
    ...workUpIssues(workup),
    ...logIssues(log),
  ];
  if (issues.length > 0) return { ok: false, issues };
  // Checked line by line above; `differences` and `log` come out of JSON.parse and so are JSON.
  const run = {
    base,
    differences,
    seed,
    log,
    ...(now_min === undefined ? {} : { now_min }),
    ...(view === undefined ? {} : { view }),
    ...(predictions === undefined ? {} : { predictions }),
    ...(mystery === undefined ? {} : { mystery }),
    ...(workup === undefined ? {} : { workup }),
  } as SavedRun;
  return { ok: true, value: run };
}

function isSeed(seed: unknown): boolean {
  return Number.isInteger(seed) && Number(seed) >= 0 && Number(seed) <= SEED_MAX;
}

function logIssues(log: unknown): Issue[] {
  if (!Array.isArray(log)) return [issue('log', 'a list of actions', log)];
  return log.flatMap((action: unknown, place) => {
    const named = isObject(action) && typeof action['do'] === 'string';
    return named ? [] : [issue(`log[${place}]`, 'an action with "do"', action)];
  });
}
