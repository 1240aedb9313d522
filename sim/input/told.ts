// What is told of bad input: the place, what was expected and what was given, of bounded length and with every sign seen.
import { nearestName } from './nearest.ts';
import type { Issue } from '../terms/types.ts';

export interface NumberRange {
  readonly min: number;
  readonly max: number;
  readonly unit: string;
  readonly integer?: true;
  /** The smallest value itself is not allowed. */
  readonly above?: true;
}

/** More than a person corrects in one go; keeps a hostile file from filling the memory. */
export const ISSUES_MAX = 200;
/** Characters of a received text or key that a message shows. */
const SHOWN_MAX = 40;
/** Characters of each part of an issue. */
const PART_MAX = 300;
/** Issues that are put into one line of words. */
const WORDS_MAX = 3;
/** Signs that are not seen, or that turn the direction of the text around them: control, format, separator, half pairs, what Unicode lets a font ignore, an empty Braille cell. */
export const UNSEEN = '\\p{Cc}\\p{Cf}\\p{Cs}\\p{Zl}\\p{Zp}\\p{DI}\\u2800';
export const HIDDEN_SIGN = new RegExp(`[${UNSEEN}]`, 'gu');
/** Names that are listed in full in a message when none is near. */
const LISTED_MAX = 12;

/** Adds an issue; after the last that is kept, one that says so. */
export function addIssue(issues: Issue[], path: string, expected: string, received: string): void {
  if (issues.length < ISSUES_MAX) issues.push({ path: shown(path, PART_MAX), expected: shown(expected, PART_MAX), received: shown(received, PART_MAX) });
  else if (issues.length === ISSUES_MAX) issues.push({ path: 'issues', expected: `at most ${ISSUES_MAX}`, received: 'more; the rest are not listed' });
}

/** Issues as one line of bounded length. */
export function inWords(issues: readonly Issue[]): string {
  const told = issues.slice(0, WORDS_MAX).map(({ path, expected, received }) => `${path}: expected ${expected}, received ${received}`);
  return [...told, ...(issues.length > WORDS_MAX ? [`and ${issues.length - WORDS_MAX} more`] : [])].join('; ');
}

/** A received value in words. */
export function describe(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'string') return value.length > SHOWN_MAX ? `"${clip(value)}" (${value.length} characters)` : `"${clip(value)}"`;
  if (typeof value === 'number' || typeof value === 'boolean' || value === null) return String(value);
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value !== 'object') return `a ${typeof value}`;
  const keys = Object.keys(value);
  if (keys.length === 0) return 'an object without keys';
  return `an object with ${keys.slice(0, 3).map(clip).join(', ')}${keys.length > 3 ? ' and more' : ''}`;
}

/** The beginning of a text, with signs that cannot be seen written out. */
export function clip(text: string): string {
  return shown(text, SHOWN_MAX);
}

function shown(text: string, most: number): string {
  const start = text.length > most ? `${text.slice(0, most)}…` : text;
  return start.replace(HIDDEN_SIGN, (sign) => `\\u{${(sign.codePointAt(0) ?? 0).toString(16)}}`);
}

export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Own value of a key: what an object inherits was not in the file. */
export function own(value: unknown, key: string): unknown {
  return isRecord(value) && Object.hasOwn(value, key) ? value[key] : undefined;
}

/** Path of a key inside a path; a key that is no plain name is quoted. */
export function under(path: string, key: string): string {
  const shown = /^[\w$-]+$/.test(key) ? clip(key) : JSON.stringify(clip(key));
  return path === '' ? shown : `${path}.${shown}`;
}

/** What was expected where a name is not known: the nearest, or all if they are few. */
export function oneOf(noun: string, known: readonly string[], received: string): string {
  const near = nearestName(received, known);
  if (near !== undefined) return `${noun}, nearest known: ${near}`;
  const listed = known.slice(0, LISTED_MAX).join(', ');
  return known.length === 0 ? `${noun}, none is known here` : `${noun}: ${listed}${known.length > LISTED_MAX ? ', ...' : ''}`;
}

/** A range in words with its unit. */
export function rangeText({ min, max, unit, integer, above }: NumberRange): string {
  const suffix = unit === '' ? '' : ` ${unit}`;
  return `${integer ? 'whole number' : 'number'} ${above ? `above ${min} and up` : min} to ${max}${suffix}`;
}
