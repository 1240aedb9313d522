// What an instructor hands out: the scenario, the choice of columns, the number of tries, what may be seen before the end, and the questions.
import { type Shape, addIssue, choice, describe, isRecord, list, number, object, own, parseJson, text } from '../input/index.ts';
import { fingerprint } from '../math/fingerprint.ts';
import { SEED_MAX } from '../math/random.ts';
import { CONTROLS } from '../terms/controls.ts';
import { SEEINGS, type Seeing } from '../terms/seeing.ts';
import type { Issue } from '../terms/types.ts';

export const HAND_OUT_KIND = 'bandfall-hand-out';
export const HAND_OUT_VERSION = 1;

/** `fresh`: another column for each try. `same`: one column for everybody and every try. */
export const COLUMN_POLICIES = ['fresh', 'same'] as const;
export type ColumnPolicy = (typeof COLUMN_POLICIES)[number];

export interface HandOut {
  /** Id of a scenario that ships with the page. */
  readonly base: string;
  /** What differs from it, a JSON merge patch. */
  readonly differences: unknown;
  /** Seed of the one column, where there is one. */
  readonly seed: number;
  readonly column: ColumnPolicy;
  /** The most that is shown before the end. */
  readonly seeing: Seeing;
  readonly tries: number;
  /** Ids of the questions on this scenario; see `sim/teach`. */
  readonly asked: readonly string[];
  /** Questions in the instructor's words. */
  readonly own: readonly string[];
  /** Set when students have to find the faults: the faults are not shown before the student has named one. */
  readonly faults?: 'hidden';
}

export const TRIES_MAX = CONTROLS['hand-out.tries'].max;
export const ASKED_MAX = 12;
export const OWN_MAX = 8;
export const QUESTION_MAX = 200;
export const QUESTION_ID_MAX = 40;
const BASE_MAX = 100;

const patchShape: Shape<unknown> = {
  schema: { type: 'object' },
  read(value, path, issues) {
    if (isRecord(value)) return value;
    addIssue(issues, path, 'an object', describe(value));
    return undefined;
  },
};

export const handOutShape: Shape<HandOut> = object(
  'a hand-out',
  {
    base: text(BASE_MAX),
    differences: patchShape,
    seed: number({ min: 0, max: SEED_MAX, unit: '', integer: true }),
    column: choice('a choice of columns', COLUMN_POLICIES),
    seeing: choice('a way of seeing', SEEINGS),
    tries: number({ min: 1, max: TRIES_MAX, unit: '', integer: true }),
    asked: list('ids of questions', text(QUESTION_ID_MAX), 0, ASKED_MAX),
    own: list('questions', text(QUESTION_MAX), 0, OWN_MAX),
  },
  { faults: choice('that faults are hidden', ['hidden'] as const) },
  'left out',
);

export type HandOutReading = { readonly ok: true; readonly handOut: HandOut } | { readonly ok: false; readonly issues: readonly Issue[] };

/** Text of the file and, packed, of the link. */
export function handOutText(handOut: HandOut, space?: number): string {
  return JSON.stringify({ kind: HAND_OUT_KIND, version: HAND_OUT_VERSION, ...inOrder(handOut) }, null, space);
}

/** Reads that text, or reports everything that is wrong with it. The scenario is read when it is opened. */
export function readHandOut(source: string): HandOutReading {
  const parsed = parseJson(source, 'hand-out');
  if (!parsed.ok) return parsed;
  const issues: Issue[] = [];
  const [kind, version] = [own(parsed.json, 'kind'), own(parsed.json, 'version')];
  if (kind !== HAND_OUT_KIND) addIssue(issues, 'kind', `"${HAND_OUT_KIND}"`, describe(kind));
  else if (version !== HAND_OUT_VERSION) addIssue(issues, 'version', String(HAND_OUT_VERSION), describe(version));
  if (issues.length > 0) return { ok: false, issues };
  const handOut = handOutShape.read(parsed.json, '', issues);
  return handOut && issues.length === 0 ? { ok: true, handOut } : { ok: false, issues };
}

/** True for the text of a hand-out, valid or not. */
export function isHandOut(source: string): boolean {
  const parsed = parseJson(source, 'hand-out');
  return parsed.ok && own(parsed.json, 'kind') === HAND_OUT_KIND;
}

/** Tells one hand-out from another: a 32-bit fingerprint of its content. */
export function handOutMark(handOut: HandOut): string {
  return marked(JSON.stringify(inOrder(handOut)));
}

function inOrder({ base, differences, seed, column, seeing, tries, asked, own: written, faults }: HandOut): HandOut {
  return { base, differences, seed, column, seeing, tries, asked, own: written, ...(faults && { faults }) };
}

/** A text in 32 bits, as eight hexadecimal digits. */
export function marked(content: string): string {
  return (fingerprint(content) >>> 0).toString(16).padStart(8, '0');
}
