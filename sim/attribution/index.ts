// Which mistake cost how much, found by computing the run again without it. Other rooms import from here.
export { type Attribution, type AttributionLine, attributionOf, type Blame, withoutDryings } from './attribution.ts';
export { mistakesOf } from './mistakes.ts';
export { type Step, stepsOf, wholeRun } from './placed.ts';
