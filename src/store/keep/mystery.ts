import { FAULT_KINDS, type FaultKind } from '../../../sim/terms/fault-kinds.ts';
import type { Issue } from '../../../sim/terms/types.ts';
import { isObject, issue } from './checks.ts';

// A run whose faults are kept from the reader until they have been named.

/** What the reader says is wrong, and why. */
export interface Diagnosis {
  readonly kind: FaultKind | 'nothing';
  readonly reason: string;
  /** Model time at which it was said, min. */
  readonly time_min: number;
}

/** Stands beside a run whose faults were hidden; with an answer they are shown. */
export interface Mystery {
  readonly answer?: Diagnosis;
}

export const REASON_MAX = 1000;

/** The faults wait to be named. */
export function isHidden(mystery: Mystery | undefined): boolean {
  return mystery !== undefined && mystery.answer === undefined;
}

export function mysteryIssues(mystery: unknown): Issue[] {
  if (mystery === undefined) return [];
  if (!isObject(mystery)) return [issue('mystery', 'an object', mystery)];
  const { answer } = mystery;
  if (answer === undefined) return [];
  if (!isObject(answer)) return [issue('mystery.answer', 'an object', answer)];
  const kinds: readonly unknown[] = [...FAULT_KINDS, 'nothing'];
  return [
    ...(kinds.includes(answer['kind']) ? [] : [issue('mystery.answer.kind', 'a kind of fault, or nothing', answer['kind'])]),
    ...(typeof answer['reason'] === 'string' && answer['reason'].length <= REASON_MAX
      ? []
      : [issue('mystery.answer.reason', `text of at most ${REASON_MAX} characters`, answer['reason'])]),
    ...(typeof answer['time_min'] === 'number' && answer['time_min'] >= 0 ? [] : [issue('mystery.answer.time_min', 'at least 0 min', answer['time_min'])]),
  ];
}
