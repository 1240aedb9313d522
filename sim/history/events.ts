import type { Action, Issue } from '../terms/types.ts';

/** How one action of the log turned out, or a note of the model. An action that was left out has its entry and a note, but no action. */
export interface RunEvent {
  /** Index in the log; -1 for a note of the model. */
  readonly entry: number;
  readonly time_min: number;
  readonly delivered_mL: number;
  readonly action?: Action;
  readonly refused?: Issue;
  readonly note?: string;
}
