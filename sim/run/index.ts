// Takes the actions of a log, steps the column and records the run. Other rooms import from here.
export { RUN_ENDED } from './bounds.ts';
export { type DryTime, dryTimesOf } from './dry-times.ts';
export { type FlowTest, flowTestMinutes } from './flow-test.ts';
export { resultsOf } from './results.ts';
export { advance, advanceAlive, AIR_ENTERS, type Checkpoint, checkpointOf, recordLast, restoreTo, type Run, runOf, runWhole, type Target } from './run.ts';
