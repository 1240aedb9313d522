import { AT, type Bed, type Column, type Flux } from '../column/index.ts';
import type { RunEvent, RunRecord } from '../history/index.ts';
import type { Action, Issue, Scenario } from '../terms/types.ts';
import type { Limits } from './step.ts';

export interface Run {
  readonly scenario: Scenario;
  readonly column: Column;
  readonly bed: Bed;
  readonly log: Action[];
  readonly events: RunEvent[];
  readonly record: RunRecord;
  readonly flux: Flux;
  readonly limits: Limits;
  /** Names of the bottles, and what is in the reservoir now, mol/L. */
  readonly liquids: readonly string[];
  readonly feed: Float64Array;
  /** What is wrong with an action of the log by itself, once it has been looked at. */
  readonly checked: WeakMap<Action, readonly Issue[]>;
  /** mL in head and bed before the first pour. */
  readonly startedVolume: number;
}

/** Adds a note of the model to the run's events. */
export function note(run: Run, text: string): void {
  const s = run.bed.scalar;
  run.events.push({ entry: -1, time_min: s[AT.time], delivered_mL: s[AT.delivered], note: text });
}
