// From titre to figure: concentration, interval, budget of errors, recovery. Other rooms import from here.
export type { Budget, Spread } from './budget.ts';
export { CALCULATION_STEPS, type CalculationCheck, checkCalculation, type Readings, type StepCheck } from './calculation.ts';
export { changedAt, type Elsewhere, receiverElsewhere, workedUp } from './elsewhere.ts';
export { COVERAGE, type Interval, intervalOf, intervalOfMean } from './interval.ts';
export { type KeptResult, portionShareOf, readingsOf, resultOf, sameAliquot } from './kept.ts';
export { parseQuantity } from './quantity.ts';
export { reportOf, type WorkUpReport } from './report.ts';
export { richest, type Sample, sampleOf, valuesWith } from './sample.ts';
export { STEP_IDS, type StepId } from './steps.ts';
export { alkaliFor, type Titration, workUp, type WorkUp, workUpFigures } from './workup.ts';
