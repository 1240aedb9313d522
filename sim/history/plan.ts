import type { RunEvent } from './events.ts';
import type { Results } from './outcome.ts';
import type { IonId, Log } from '../terms/types.ts';

/** A whole run as the page draws it. Arrays as in `RunRecord`. */
export interface Plan {
  readonly log: Log;
  readonly events: readonly RunEvent[];
  readonly labels: readonly string[];
  readonly ions: readonly IonId[];
  readonly components: number;
  readonly plates: number;
  readonly stride: number;
  readonly count: number;
  readonly rows: Float64Array;
  readonly profiles: Float32Array;
  /** Model time (min) and delivered volume (mL) at which the last action of the log is done. */
  readonly logEnd: { readonly time_min: number; readonly delivered_mL: number };
  /** Figures when the log is done. */
  readonly results: Results;
  /** Model time worked out anew, min: what the recomputation cost. */
  readonly recomputed_min: number;
}
