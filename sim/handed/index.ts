// Runs that are handed in and taken in. Other rooms import from here, but for predictions, which the page keeps with every run.
export { type Claimed, type HandedIn, type HandedReading, type HandedRun, handedInText, HANDED_KIND, readHandedIn, WHO_MAX } from './handed-in.ts';
export { type Difference, type Recomputed, recomputed, TOLERANCE } from './recomputed.ts';
export { type Taken, takenIn, type Verdict } from './taken.ts';
