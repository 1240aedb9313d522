// Programmes that separate several metals by weaker and weaker acid. Other rooms import from here.
export { findSequence, type Progress, type Sequence, type SequenceGoal } from './sequence.ts';
