// The figures of a run, as one plain object: what the runner prints and the page shows; and a whole run as views take it.
import type { Band } from '../column/index.ts';
import type { Amounts, IonId, Log } from '../terms/types.ts';
import type { RunEvent } from './events.ts';
import type { RunRecord } from './record.ts';

export interface ReceiverResult extends Readonly<Record<string, number | string>> {
  readonly label: string;
  readonly volume_mL: number;
  readonly HCl_mmol: number;
}

export interface Results {
  readonly scenario: string;
  readonly seed: number;
  readonly bed: { readonly volume_mL: number; readonly holdup_mL: number; readonly plates: number; readonly lanes: number };
  /** mmol poured so far. */
  readonly loaded: Amounts;
  readonly receivers: readonly ReceiverResult[];
  readonly onBed: Amounts;
  readonly inTip: Amounts;
  readonly inHead: Amounts;
  readonly spilled: Amounts;
  readonly ledger: { readonly worstRelativeError: number };
  /** Depths as a ruler beside the bed reads them, cm, 0 where its top stood as packed (`onRuler`). */
  readonly bands: Readonly<Partial<Record<IonId, Band | null>>>;
  readonly time_min: number;
  readonly delivered_mL: number;
  readonly lowestLiquid_mm: number;
  readonly refused: readonly { readonly entry: number; readonly path: string; readonly expected: string; readonly received: string }[];
}

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
