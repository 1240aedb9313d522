// Shapes: what a piece of JSON must look like, said once for the reader and for the JSON Schema.
// A reader adds an issue for everything wrong it meets and goes on; it never throws.
import { addIssue, describe, HIDDEN_SIGN, isRecord, type NumberRange, oneOf, own, rangeText, under, UNSEEN, ISSUES_MAX, clip } from './told.ts';
import type { Issue } from '../terms/types.ts';

export type JsonSchema = Readonly<Record<string, unknown>>;

export interface Shape<T> {
  readonly schema: JsonSchema;
  /** The value, or undefined after adding at least one issue. */
  read(value: unknown, path: string, issues: Issue[]): T | undefined;
}

/** A sign that stands on another does not come first, and at most four stand on one: more climb over the lines beside them (choice). */
const STACKED = '(?!\\p{M})(?!.*\\p{M}{5})';
/** What free text needs of these: tabs and new lines, and what joins letters of some scripts and parts of a picture. */
const IN_NOTES = ['\t', '\n', '\r', '\u200c', '\u200d', '\ufe0e', '\ufe0f'];
/** Stands in free text for a sign that is not seen (Unicode: replacement character). */
const SHOWN_SIGN = '\ufffd';
const SEEN_TEXT = `^${STACKED}[^${UNSEEN}]*[^\\s${UNSEEN}][^${UNSEEN}]*$`;

export function number(range: NumberRange): Shape<number> {
  const { min, max, integer, above } = range;
  return {
    schema: { type: integer ? 'integer' : 'number', [above ? 'exclusiveMinimum' : 'minimum']: min, maximum: max },
    read(value, path, issues) {
      const fits = typeof value === 'number' && (above ? value > min : value >= min) && value <= max;
      if (fits && (!integer || Number.isInteger(value))) return value;
      const unit = typeof value === 'number' && range.unit !== '' ? ` ${range.unit}` : '';
      addIssue(issues, path, rangeText(range), describe(value) + unit);
      return undefined;
    },
  };
}

/** Text without signs that cannot be seen, not blank. */
export function text(max: number): Shape<string> {
  return {
    schema: { type: 'string', minLength: 1, maxLength: max, pattern: SEEN_TEXT },
    read(value, path, issues) {
      if (typeof value === 'string' && value.trim() !== '' && codePoints(value, max) <= max && new RegExp(SEEN_TEXT, 'u').test(value)) return value;
      addIssue(issues, path, `text of 1 to ${max} characters, not blank, every sign of it visible and on a letter of its own`, describe(value));
      return undefined;
    },
  };
}

/** Text as a person typed it, or none. A sign that is not seen or turns the direction of text is read as one that shows. */
export function note(max: number): Shape<string> {
  return {
    schema: { type: 'string', maxLength: max },
    read(value, path, issues) {
      if (typeof value === 'string' && value.length <= max) return value.replace(HIDDEN_SIGN, (sign) => (IN_NOTES.includes(sign) ? sign : SHOWN_SIGN));
      addIssue(issues, path, `text of at most ${max} characters`, describe(value));
      return undefined;
    },
  };
}

/** A value, or null where there is none. */
export function orNull<T>(shape: Shape<T>): Shape<T | null> {
  return { schema: { oneOf: [shape.schema, { type: 'null' }] }, read: (value, path, issues) => (value === null ? null : shape.read(value, path, issues)) };
}

export function flag(): Shape<boolean> {
  return {
    schema: { type: 'boolean' },
    read(value, path, issues) {
      if (typeof value === 'boolean') return value;
      addIssue(issues, path, 'true or false', describe(value));
      return undefined;
    },
  };
}

export function choice<const T extends string>(noun: string, known: readonly T[]): Shape<T> {
  return {
    schema: { enum: known },
    read(value, path, issues) {
      const found = known.find((name) => name === value);
      if (found === undefined) addIssue(issues, path, oneOf(noun, known, typeof value === 'string' ? value : ''), describe(value));
      return found;
    },
  };
}

export function list<T>(noun: string, item: Shape<T>, min: number, max: number): Shape<readonly T[]> {
  return {
    schema: { type: 'array', items: item.schema, minItems: min, maxItems: max },
    read(value, path, issues) {
      if (!Array.isArray(value) || value.length < min || value.length > max) {
        addIssue(issues, path, `list of ${min} to ${max} ${noun}`, describe(value));
        return undefined;
      }
      const items = Array.from(value, (part: unknown, i) => item.read(part, `${path}[${i}]`, issues));
      return allRead(items);
    },
  };
}

type Shapes = Readonly<Record<string, Shape<unknown>>>;
type Values<S extends Shapes> = { [K in keyof S]: S[K] extends Shape<infer T> ? T : never };

/** An object with these keys; others are refused, or left out of what is read. */
export function object<R extends Shapes, O extends Shapes>(
  noun: string,
  required: R,
  optional: O,
  others: 'refused' | 'left out' = 'refused',
): Shape<Values<R> & Partial<Values<O>>> {
  const shapes: Shapes = { ...required, ...optional };
  return {
    schema: {
      type: 'object',
      properties: mapValues(shapes, ({ schema }) => schema),
      required: Object.keys(required),
      additionalProperties: others === 'left out',
    },
    read(value, path, issues) {
      if (!isRecord(value)) {
        addIssue(issues, path, `${noun}, an object`, describe(value));
        return undefined;
      }
      const known = others === 'left out' || unknownKeysRefused(noun, value, Object.keys(shapes), path, issues);
      const read: Record<string, unknown> = {};
      let sound = known;
      for (const [key, shape] of Object.entries(shapes)) {
        const given = own(value, key);
        if (given === undefined && !Object.hasOwn(required, key)) continue;
        const part = shape.read(given, under(path, key), issues);
        if (part === undefined) sound = false;
        else read[key] = part;
      }
      // Every key was read by the shape that its type comes from.
      return sound ? (read as Values<R> & Partial<Values<O>>) : undefined;
    },
  };
}

/** An object whose keys are names of the author's choice, or of a known set. */
export function dictionary<T>(noun: string, names: Shape<string>, item: Shape<T>, min: number, max: number): Shape<Readonly<Record<string, T>>> {
  return {
    schema: { type: 'object', propertyNames: names.schema, additionalProperties: item.schema, minProperties: min, maxProperties: max },
    read(value, path, issues) {
      const keys = isRecord(value) ? Object.keys(value) : [];
      if (!isRecord(value) || keys.length < min || keys.length > max) {
        addIssue(issues, path, `object of ${min} to ${max} ${noun}`, isRecord(value) ? `${keys.length} keys` : describe(value));
        return undefined;
      }
      const named = keys.map((key) => names.read(key, under(path, key), issues));
      const items = keys.map((key) => item.read(own(value, key), under(path, key), issues));
      const read = allRead(items);
      if (!allRead(named) || !read) return undefined;
      return Object.fromEntries(keys.map((key, i) => [key, read[i]])) as Readonly<Record<string, T>>;
    },
  };
}

/** A name that is a key of an object: no spaces, nothing an object inherits. */
export function keyName(noun: string): Shape<string> {
  const pattern = '^[A-Za-z][A-Za-z0-9_-]{0,29}$';
  const inherited = Object.getOwnPropertyNames(Object.prototype)
    .filter((name) => new RegExp(pattern).test(name))
    .sort();
  return {
    schema: { pattern, not: { enum: inherited } },
    read(value, path, issues) {
      if (typeof value === 'string' && new RegExp(pattern).test(value) && !inherited.includes(value)) return value;
      addIssue(issues, path, `${noun}: a letter, then up to 29 letters, digits, _ or -, no name that every object has`, describe(value));
      return undefined;
    },
  };
}

/** Adds an issue per key that is not known; true if there is none. */
function unknownKeysRefused(noun: string, value: Readonly<Record<string, unknown>>, known: readonly string[], path: string, issues: Issue[]): boolean {
  const strangers = Object.keys(value).filter((key) => !known.includes(key));
  for (const key of strangers.slice(0, ISSUES_MAX + 1)) addIssue(issues, under(path, key), oneOf(`a key of ${noun}`, known, key), `"${clip(key)}"`);
  return strangers.length === 0;
}

function allRead<T>(items: readonly (T | undefined)[]): readonly T[] | undefined {
  const read = items.filter((item) => item !== undefined);
  return read.length === items.length ? read : undefined;
}

/** Characters as a JSON Schema counts them, which need not be exact far beyond the bound. */
function codePoints(value: string, max: number): number {
  return value.length > 2 * max ? value.length : [...value].length;
}

function mapValues<A, B>(record: Readonly<Record<string, A>>, of: (value: A) => B): Readonly<Record<string, B>> {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, of(value)]));
}
