import { readWorkUpLog } from '../../../sim/workup/log.ts';
import type { WorkUpLog } from '../../../sim/workup/actions.ts';
import { CALCULATION_STEPS, type StepId } from '../../../sim/report/calculation.ts';
import type { Issue } from '../../../sim/terms/types.ts';
import { isObject, issue } from './checks.ts';

// A work-up as it is kept with the run: which receiver, what was done to it, what the reader expected, calculated and wrote
// down, and the results kept from earlier aliquots. Everything else is worked out of these.

export interface SavedWorkUp {
  /** Label of the receiver taken to the work-up bench; empty before one is. */
  readonly receiver: string;
  readonly log: WorkUpLog;
  /** As typed: alkali expected for one aliquot. */
  readonly expected?: string;
  readonly answers: Answers;
  readonly entries: readonly Entry[];
  readonly kept: readonly KeptResult[];
}

export type Answers = Readonly<Partial<Record<StepId, string>>>;

/** What the reader wrote down. */
export interface Entry {
  readonly what: string;
  readonly value: string;
}

/** Result of one aliquot that went over the column, with what the column did to it. */
export interface KeptResult {
  readonly scenario: string;
  readonly seed: number;
  readonly receiver: string;
  readonly volume_mL: number;
  readonly acid_mmol: number;
  /** Shares of what was loaded that the receiver holds. */
  readonly recovered: number;
  readonly carried: number;
  readonly expected_mL: number | null;
  readonly NaOH_mL: number;
  readonly titres_mL: readonly number[];
  /** mol/L in the unknown, of each titration and as the reader calculated it. */
  readonly found_M: readonly number[];
  readonly own_M: number | null;
  readonly true_M: number;
}

export const EMPTY_WORK_UP: SavedWorkUp = { receiver: '', log: [], answers: {}, entries: [], kept: [] };
export const TEXT_LONGEST = 200;
export const ENTRIES_MAX = 60;
export const KEPT_MAX = 3;
const TITRES_MAX = 12;
const KEPT_NUMBERS = ['seed', 'volume_mL', 'acid_mmol', 'recovered', 'carried', 'NaOH_mL', 'true_M'] as const;

/** Everything wrong with a kept work-up; none is one, too. */
export function workUpIssues(value: unknown): Issue[] {
  if (value === undefined) return [];
  if (!isObject(value)) return [issue('workup', 'an object', value)];
  const { receiver, log, expected, answers, entries, kept, ...rest } = value;
  const steps = readWorkUpLog(log);
  return [
    ...Object.keys(rest).map((key) => issue(`workup.${key}`, 'receiver, log, expected, answers, entries or kept', key)),
    ...(isText(receiver) ? [] : [issue('workup.receiver', 'the label of a receiver', receiver)]),
    ...(steps.ok ? [] : steps.issues.map((one) => ({ ...one, path: one.path.replace(/^workup/, 'workup.log') }))),
    ...(expected === undefined || isText(expected) ? [] : [issue('workup.expected', 'text', expected)]),
    ...answerIssues(answers),
    ...listIssues('workup.entries', entries, ENTRIES_MAX, (one) => isText(one['what']) && isText(one['value'])),
    ...listIssues('workup.kept', kept, KEPT_MAX, isKept),
  ];
}

function answerIssues(answers: unknown): Issue[] {
  if (!isObject(answers)) return [issue('workup.answers', 'an object', answers)];
  return Object.entries(answers).flatMap(([id, text]) => {
    const known = CALCULATION_STEPS.some((step) => step.id === id);
    return known && isText(text) ? [] : [issue(`workup.answers.${id}`, `text for ${CALCULATION_STEPS.map((step) => step.id).join(', ')}`, text)];
  });
}

function listIssues(path: string, value: unknown, most: number, fits: (one: Record<string, unknown>) => boolean): Issue[] {
  if (!Array.isArray(value) || value.length > most) return [issue(path, `a list of at most ${most}`, value)];
  return value.flatMap((one: unknown, i) => (isObject(one) && fits(one) ? [] : [issue(`${path}[${i}]`, 'what the page keeps', one)]));
}

function isKept(one: Record<string, unknown>): boolean {
  const finite = (value: unknown): boolean => typeof value === 'number' && Number.isFinite(value);
  const numbers = (value: unknown): boolean => Array.isArray(value) && value.length > 0 && value.length <= TITRES_MAX && value.every(finite);
  const orNone = (value: unknown): boolean => value === null || finite(value);
  return (
    isText(one['scenario']) &&
    isText(one['receiver']) &&
    KEPT_NUMBERS.every((key) => finite(one[key])) &&
    numbers(one['titres_mL']) &&
    numbers(one['found_M']) &&
    orNone(one['own_M']) &&
    orNone(one['expected_mL'])
  );
}

function isText(value: unknown): value is string {
  return typeof value === 'string' && value.length <= TEXT_LONGEST;
}
