import type { Action, Issue } from '../terms/types.ts';

/** What became of one action of the log, or something the model has to say. */
export interface RunEvent {
  /** Index in the log; -1 for a note of the model. */
  readonly entry: number;
  readonly time_min: number;
  readonly delivered_mL: number;
  readonly action?: Action;
  readonly refused?: Issue;
  readonly note?: string;
}
