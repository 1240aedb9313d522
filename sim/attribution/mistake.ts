import type { FaultKind } from '../terms/fault-kinds.ts';
import type { Repair } from './repairs.ts';

/** Faults of the board have the same name here; the others come only from the operator's hand. */
export type MistakeKind =
  | FaultKind
  | 'receiver-unchanged'
  | 'short-wash'
  | 'long-wash'
  | 'poured-on-bed'
  | 'wide-clamp'
  | 'narrow-clamp'
  | 'standing-still'
  | 'stirred';

export interface Mistake {
  readonly kind: MistakeKind;
  /** In one line, with numbers and units. */
  readonly what: string;
  /** How far it is from the procedure, in the unit of its kind: to tell the largest of several of one kind. */
  readonly size: number;
  /** Where in the log, and when, it was made; entry -1 if it is something left out at the end. */
  readonly entry: number;
  readonly time_min: number;
  readonly delivered_mL: number;
  readonly repair: Repair;
}
