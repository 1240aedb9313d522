import { isRecord, own } from '../input/index.ts';
import { FIELDS, type FieldPath } from '../terms/fields.ts';
import { DEFAULT_GRADE } from '../terms/grades.ts';
import { IONS, type IonId } from '../terms/ions.ts';
import { SEEING_USUAL, SEEING_WORDS, SEEINGS } from '../terms/seeing.ts';
import { effective, valueAt } from './place.ts';
import { procedureDifferences } from './procedure-differences.ts';

// What differs between two scenarios, as a list that a person can read and take back one by one. Takes any JSON.

export interface Difference {
  /** Place in the scenario; putting this back undoes the difference. */
  readonly path: string;
  readonly label: string;
  readonly unit: string;
  /** In words; "nothing" where there is none. */
  readonly was: string;
  readonly now: string;
}

/** Longest text that is shown of a value, characters. */
const SHOWN_MAX = 60;
const NOTHING = 'nothing';

const SINGLE: readonly (readonly [path: string, label: string])[] = [
  ['title', 'title'],
  ['purpose', 'purpose'],
  ['notice', 'what to notice'],
  ['sources', 'sources'],
  ['ions', 'ions'],
  ['resin.grade', 'grade of resin'],
];
const LAST: readonly (readonly [path: string, label: string])[] = [
  ['seeing', 'seen before the end'],
  ['coach', 'coach'],
  ['seed', 'seed'],
  ['fitted', 'fitted numbers'],
];

/** What a scenario has where it names nothing. */
const USUAL: Readonly<Record<string, unknown>> = { 'resin.grade': DEFAULT_GRADE };

/** Everything in `lab` that is not as in `start`, in the order of the tables. */
export function differencesBetween(start: unknown, lab: unknown): Difference[] {
  const pick = (rows: typeof SINGLE) => rows.flatMap(([path, label]) => compared(start, lab, path, label));
  return [
    ...pick(SINGLE),
    ...parameterDifferences(start, lab),
    ...bottleDifferences(start, lab),
    ...keyedDifferences(start, lab, 'curves', (ion) => `own curve of ${IONS[ion as IonId]?.name ?? ion}`),
    ...compared(start, lab, 'faults', 'faults'),
    ...compared(start, lab, 'procedure', 'procedure'),
    ...pick(LAST),
  ];
}

/** A number that is left out follows the grade of resin or the bed, so only what is written can differ. */
function parameterDifferences(start: unknown, lab: unknown): Difference[] {
  return (Object.keys(FIELDS) as FieldPath[]).flatMap((path) => {
    const [before, after] = [valueAt(start, path), valueAt(lab, path)];
    if (same(before, after)) return [];
    const [was, now] = [before ?? effective(start, path), after ?? effective(lab, path)];
    return same(was, now) ? [] : [{ path, label: FIELDS[path].label, unit: FIELDS[path].unit, was: words(was), now: words(now) }];
  });
}

function bottleDifferences(start: unknown, lab: unknown): Difference[] {
  const [before, after] = [own(start, 'liquids'), own(lab, 'liquids')];
  return keysOf(before, after).flatMap((id) => {
    const path = `liquids.${id}`;
    const [was, now] = [own(before, id), own(after, id)];
    const label = `bottle ${labelOf(now) ?? labelOf(was) ?? id}`;
    if (was === undefined || now === undefined) return same(was, now) ? [] : [{ path, label, unit: '', was: words(was), now: words(now) }];
    return [
      ...compared(start, lab, `${path}.label`, `${label}, name`),
      ...compared(start, lab, `${path}.HCl_M`, `${label}, HCl`, 'mol/L'),
      ...keyedDifferences(start, lab, `${path}.ions`, (ion) => `${label}, ${IONS[ion as IonId]?.name ?? ion}`, 'mol/L'),
    ];
  });
}

function keyedDifferences(start: unknown, lab: unknown, path: string, label: (key: string) => string, unit = ''): Difference[] {
  return keysOf(valueAt(start, path), valueAt(lab, path)).flatMap((key) => compared(start, lab, `${path}.${key}`, label(key), unit));
}

function compared(start: unknown, lab: unknown, path: string, label: string, unit = ''): Difference[] {
  const [before, after] = [start, lab].map((json) => valueAt(json, path) ?? USUAL[path]);
  if (same(before, after)) return [];
  if (path === 'seeing') return seeingWords(before) === seeingWords(after) ? [] : [{ path, label, unit, was: seeingWords(before), now: seeingWords(after) }];
  const now = path === 'procedure' ? procedureWords(start, lab, before, after) : words(after);
  return [{ path, label, unit, was: words(before), now }];
}

/** What differs at the bench; where that is only in waits or their order, how many actions do. */
function procedureWords(start: unknown, lab: unknown, before: unknown, after: unknown): string {
  if (!Array.isArray(before) || !Array.isArray(after)) return words(after);
  const label = (id: string): string => labelOf(valueAt(lab, `liquids.${id}`)) ?? labelOf(valueAt(start, `liquids.${id}`)) ?? id;
  const told = procedureDifferences(before, after, label);
  return told.length > 0 ? told.join(', ') : `the same volumes, ${changedIn(before, after)} of ${words(after)} in their waits or their order`;
}

function seeingWords(value: unknown): string {
  const seeing = SEEINGS.find((one) => one === (value ?? SEEING_USUAL));
  return seeing ? SEEING_WORDS[seeing] : words(value);
}

/** How many items of a list are not where they were. */
function changedIn(a: readonly unknown[], b: readonly unknown[]): number {
  let [front, back] = [0, 0];
  const least = Math.min(a.length, b.length);
  while (front < least && same(a[front], b[front])) front++;
  while (back < least - front && same(a[a.length - 1 - back], b[b.length - 1 - back])) back++;
  return Math.max(0, b.length - front - back);
}

function keysOf(before: unknown, after: unknown): string[] {
  const keys = [before, after].flatMap((value) => (isRecord(value) ? Object.keys(value) : []));
  return [...new Set(keys)];
}

function labelOf(bottle: unknown): string | undefined {
  const label = own(bottle, 'label');
  return typeof label === 'string' ? label : undefined;
}

function words(value: unknown): string {
  if (value === undefined) return NOTHING;
  if (typeof value === 'string') return value.length > SHOWN_MAX ? `${value.slice(0, SHOWN_MAX)}…` : value;
  if (Array.isArray(value)) return listWords(value);
  if (isRecord(value)) return labelOf(value) ?? `${Object.keys(value).length} values`;
  return String(value);
}

function listWords(list: readonly unknown[]): string {
  if (list.every((item) => typeof item === 'string') && list.join(', ').length <= SHOWN_MAX) return list.join(', ') || NOTHING;
  const kinds = list.map((item) => own(item, 'kind'));
  if (kinds.every((kind) => typeof kind === 'string')) return words(kinds.join(', '));
  const noun = list.some((item) => own(item, 'do') !== undefined) ? 'actions' : list.every(Array.isArray) ? 'points' : 'texts';
  return `${list.length} ${noun}`;
}

/** Alike as JSON, whatever the order of keys. */
function same(a: unknown, b: unknown): boolean {
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((item, i) => same(item, b[i]));
  if (!isRecord(a) || !isRecord(b)) return a === b;
  const keys = keysOf(a, b);
  return keys.every((key) => same(own(a, key), own(b, key)));
}
