import { addIssue, describe, isRecord, logShape, number, object, type Shape, text } from '../../../sim/input/index.ts';
import { SEED_MAX } from '../../../sim/math/random.ts';
import type { Issue, Log } from '../../../sim/terms/types.ts';
import { type EyeMark, eyeMarksShape } from './eye-marks.ts';
import { type Mystery, mysteryShape } from './mystery.ts';
import { type Prediction, predictionsShape } from '../../../sim/handed/index.ts';
import { type Given, givenShape } from '../given/given.ts';
import { type SavedWorkUp, workUpShape } from './work-up.ts';

// A run as it is kept outside the page: in storage, in a link, in a file. A run is scenario + log + seed, so this is everything.

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
  /** Predictions set by eye on the axis; kept like the others. */
  readonly marks?: readonly EyeMark[];
  /** Present if the faults were hidden, with the reader's answer. */
  readonly mystery?: Mystery;
  /** What was done with a receiver on the work-up bench. Kept here and in files, like the predictions. */
  readonly workup?: SavedWorkUp;
  /** Present if the run is a try of a hand-out. Kept here and in files. */
  readonly given?: Given;
}

export type Outcome<Value> = { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly message: string };

export type Reading<Value> = { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly issues: readonly Issue[] };

/** Longest id of a scenario or name of a view, characters. */
const BASE_MAX = 100;
/** Longest model time a kept run may have been played, min: a week. */
const NOW_MAX = 10_080;

const differencesShape: Shape<Json> = {
  schema: { type: 'object' },
  read(value, path, issues) {
    // What is kept comes out of JSON.parse, so an object in it is JSON.
    if (isRecord(value)) return value as Json;
    addIssue(issues, path, 'an object', describe(value));
    return undefined;
  },
};

/** Values of the scenario, and what depends on the bench, are checked where they are applied: by the scenario reader and the run. */
const savedShape: Shape<SavedRun> = object(
  'a run',
  { base: text(BASE_MAX), differences: differencesShape, seed: number({ min: 0, max: SEED_MAX, unit: '', integer: true }), log: logShape },
  {
    now_min: number({ min: 0, max: NOW_MAX, unit: 'min' }),
    view: text(BASE_MAX),
    predictions: predictionsShape,
    marks: eyeMarksShape,
    mystery: mysteryShape,
    workup: workUpShape,
    given: givenShape,
  },
  'left out',
);

/** Reads a saved run, or reports everything that is wrong with it. Unknown keys are left out. */
export function readSaved(value: unknown): Reading<SavedRun> {
  const issues: Issue[] = [];
  const run = savedShape.read(isRecord(value) ? { differences: {}, ...value } : value, '', issues);
  return run ? { ok: true, value: run } : { ok: false, issues };
}
