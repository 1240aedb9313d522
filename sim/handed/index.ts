// Runs that were handed in: read, computed again, compared. Other rooms import from here.
export { type Claimed, HANDED_KIND, type HandedIn, handedInText, type HandedReading, type HandedRun, readHandedIn, WHO_MAX } from './handed-in.ts';
export { leftFirst, NEAR_ML, truthOf } from './predicted.ts';
export { type Occasion, type Prediction, PREDICTIONS_MAX, predictionsShape, REASON_MAX, runMark } from './predictions.ts';
export { type Difference, type Recomputed, recomputed, TOLERANCE } from './recomputed.ts';
export { type Taken, takenIn, type Verdict } from './taken.ts';
