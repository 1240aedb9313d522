import type { Status } from '../terms/fields.ts';
import type { FaultKind } from '../terms/fault-kinds.ts';

/** What a fault changes: the bed (at any time), the bottles and packing, or the log; the last two before the first action. */
export type FaultPlace = 'bed' | 'scenario' | 'log' | 'scenario and log';

export interface FaultEntry {
  readonly label: string;
  readonly group: 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8;
  readonly place: FaultPlace;
  /** What is wrong, in one sentence. */
  readonly what: string;
  /** Severity 1 in words, with its unit. */
  readonly severityMeaning: string;
  /** Severity 1 as a number in that unit; severity is linear in it unless the words say otherwise. */
  readonly most: number;
  readonly unit: string;
  readonly hasSide: boolean;
  readonly hasDepth: boolean;
  /** How it comes from the operator's own hand; left out when it does not. */
  readonly cause?: string;
  /** What to look for in bands, flow and effluent. */
  readonly signs: string;
  readonly prevention: string;
  readonly rescue: string;
  readonly source: string;
  readonly status: Status;
}

/** Some rows of the table. */
export type FaultRows = Readonly<Partial<Record<FaultKind, FaultEntry>>>;
