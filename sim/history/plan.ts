import type { Log } from '../terms/types.ts';
import type { RunEvent } from './events.ts';
import type { Results } from './outcome.ts';
import type { RunRecord } from './record.ts';

/** A whole run as the page draws it: its record, and what was done. */
export interface Plan extends Readonly<RunRecord> {
  readonly log: Log;
  readonly events: readonly RunEvent[];
  /** Receivers by their place. */
  readonly labels: readonly string[];
  /** Of the bed. */
  readonly length_cm: number;
  /** Model time (min) and delivered volume (mL) at which the last action of the log is done. */
  readonly logEnd: { readonly time_min: number; readonly delivered_mL: number };
  /** Figures when the log is done. */
  readonly results: Results;
  /** Model time that was computed again, min: what the recomputation cost. */
  readonly recomputed_min: number;
}
