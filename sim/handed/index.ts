// What is handed out, and runs that are handed in and taken in: read, computed again, compared. Other rooms import from here.
export { against, type Origin, originOf } from './against.ts';
export { type Answer, answersShape, tidied, type Under, WORDS_MAX, wordsIssue } from './answers.ts';
export {
  ASKED_MAX,
  COLUMN_POLICIES,
  type ColumnPolicy,
  type HandOut,
  handOutMark,
  type HandOutReading,
  handOutShape,
  handOutText,
  isHandOut,
  OWN_MAX,
  QUESTION_MAX,
  readHandOut,
  TRIES_MAX,
} from './hand-out.ts';
export {
  type HandedIn,
  type HandedReading,
  type HandedRun,
  handedInText,
  HANDED_KIND,
  namedIn,
  readHandedIn,
  WHO_MAX,
} from './handed-in.ts';
export { leftFirst, NEAR_ML, truthOf } from './predicted.ts';
export { type Occasion, type Prediction, PREDICTIONS_MAX, predictionsShape, REASON_MAX, runMark } from './predictions.ts';
export { type Difference, type Recomputed, recomputed, TOLERANCE } from './recomputed.ts';
export { type Taken, takenIn, type Verdict } from './taken.ts';
export { type Claimed, claimedShape } from './claimed.ts';
export { handedOutScenario, scenarioMark } from './handed-out.ts';
export type { Judged } from './judged.ts';
