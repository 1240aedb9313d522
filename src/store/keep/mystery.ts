import { FAULT_KINDS, type FaultKind } from '../../../sim/terms/fault-kinds.ts';
import { choice, note, number, object, type Shape } from '../../../sim/input/index.ts';

// A run whose faults are hidden from the reader until the reader has named one.

/** What the reader says is wrong, and why. */
export interface Diagnosis {
  readonly kind: FaultKind | 'nothing';
  readonly reason: string;
  /** Model time at which it was said, min. */
  readonly time_min: number;
}

/** Kept with a run whose faults were hidden; once there is an answer they are shown. */
export interface Mystery {
  readonly answer?: Diagnosis;
}

export const REASON_MAX = 1000;
/** Far beyond any run, min. */
const TIME_MAX = 1e6;

/** True while the faults are hidden. */
export function isHidden(mystery: Mystery | undefined): boolean {
  return mystery !== undefined && mystery.answer === undefined;
}

const KINDS: readonly Diagnosis['kind'][] = [...FAULT_KINDS, 'nothing'];

export const mysteryShape: Shape<Mystery> = object(
  'a mystery',
  {},
  {
    answer: object(
      'an answer',
      { kind: choice('a kind of fault, or nothing', KINDS), reason: note(REASON_MAX), time_min: number({ min: 0, max: TIME_MAX, unit: 'min' }) },
      {},
      'left out',
    ),
  },
  'left out',
);
