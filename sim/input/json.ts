// Text to JSON with the position of the first fault, the same in every engine, and with bounds that hold before
// anything is built. Grammar: RFC 8259 (recalled); duplicate keys, which it only advises against, are refused.
import type { Issue } from '../terms/types.ts';

/** Characters of a scenario or log file. */
export const TEXT_MAX = 1_000_000;
/** Brackets inside brackets; a scenario needs five. */
export const DEPTH_MAX = 20;

export type ParsedJson = { readonly ok: true; readonly json: unknown } | { readonly ok: false; readonly issues: readonly Issue[] };

/** The value of a JSON text, or one issue with line and column. `noun` names the text in the issue. */
export function parseJson(text: string, noun: string, most = TEXT_MAX): ParsedJson {
  if (text.length > most) return refuse(noun, `text of at most ${most} characters`, `${text.length} characters`);
  const body = text.startsWith('\ufeff') ? text.slice(1) : text;
  const fault = jsonFault(body);
  if (!fault) return { ok: true, json: JSON.parse(body) };
  return refuse(`${noun}, ${positionOf(body, fault.offset)}`, fault.expected, received(body, fault.offset));
}

/** Whole lines of a JSON text that ends before it is complete; undefined where it is complete, or wrong before its end. */
export function cutOffAfter(text: string): number | undefined {
  const fault = jsonFault(text);
  if (!fault || text.trim() === '' || !UNFINISHED.test(text.slice(fault.offset))) return undefined;
  return text.trimEnd().split('\n').length - (text.endsWith('\n') ? 0 : 1);
}

/** Nothing, or the beginning of a string, number or word that runs into the end of the text. */
const UNFINISHED = /^(?:|"(?:[^"\\\u0000-\u001f]|\\.)*\\?|-|-?\d+(?:\.|\.?\d*[eE][+-]?)|t|tr|tru|f|fa|fal|fals|n|nu|nul)$/;

interface Fault {
  readonly offset: number;
  readonly expected: string;
}

/** What may come next. */
type Turn = 'value' | 'value or ]' | 'key' | 'key or }' | 'colon' | 'comma or close' | 'end';

const EXPECTED: Readonly<Record<Turn, string>> = {
  value: 'a JSON value',
  'value or ]': 'a JSON value or ]',
  key: 'a key in double quotes',
  'key or }': 'a key in double quotes or }',
  colon: 'a colon',
  'comma or close': 'a comma or the closing bracket',
  end: 'the end of the JSON text',
};

const BLANK = /[ \t\n\r]*/y;
const TOKEN = /[{}[\],:]|"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null/y;

/** First fault of a JSON text, undefined if it is sound. */
export function jsonFault(text: string): Fault | undefined {
  const open: (Set<string> | undefined)[] = [];
  let turn: Turn = 'value';
  let offset = skipBlank(text, 0);
  while (offset < text.length) {
    const token = tokenAt(text, offset);
    const next: Turn | undefined = token === undefined ? undefined : turnAfter(turn, token, open.at(-1) !== undefined);
    if (token === undefined || next === undefined) return { offset, expected: EXPECTED[turn] };
    const expected = enter(token, turn, open);
    if (expected !== undefined) return { offset, expected };
    turn = next === 'comma or close' && open.length === 0 ? 'end' : next;
    offset = skipBlank(text, offset + token.length);
  }
  return turn === 'end' ? undefined : { offset, expected: EXPECTED[turn] };
}

/** The turn after a token, undefined if the token does not belong. */
function turnAfter(turn: Turn, token: string, inObject: boolean): Turn | undefined {
  switch (turn) {
    case 'end':
      return undefined;
    case 'colon':
      return token === ':' ? 'value' : undefined;
    case 'comma or close':
      if (token === ',') return inObject ? 'key' : 'value';
      return token === (inObject ? '}' : ']') ? 'comma or close' : undefined;
    case 'key':
    case 'key or }':
      if (token.startsWith('"')) return 'colon';
      return token === '}' && turn === 'key or }' ? 'comma or close' : undefined;
    default:
      if (token === '{') return 'key or }';
      if (token === '[') return 'value or ]';
      if (token === ']') return turn === 'value or ]' ? 'comma or close' : undefined;
      return '},:'.includes(token) ? undefined : 'comma or close';
  }
}

/** Keeps the open brackets (a set of keys for an object, undefined for a list); returns what was expected if a limit is exceeded. */
function enter(token: string, turn: Turn, open: (Set<string> | undefined)[]): string | undefined {
  if (token === '{' || token === '[') {
    open.push(token === '{' ? new Set() : undefined);
    return open.length > DEPTH_MAX ? `at most ${DEPTH_MAX} brackets inside one another` : undefined;
  }
  if (token === '}' || token === ']') open.pop();
  if (turn !== 'key' && turn !== 'key or }') return undefined;
  const keys = open.at(-1);
  const key = token.startsWith('"') ? String(JSON.parse(token)) : undefined;
  if (!keys || key === undefined) return undefined;
  if (keys.has(key)) return 'a key not yet used in this object';
  keys.add(key);
  return undefined;
}

function skipBlank(text: string, offset: number): number {
  BLANK.lastIndex = offset;
  return offset + (BLANK.exec(text)?.[0].length ?? 0);
}

function tokenAt(text: string, offset: number): string | undefined {
  TOKEN.lastIndex = offset;
  return TOKEN.exec(text)?.[0];
}

function positionOf(text: string, offset: number): string {
  const lines = text.slice(0, offset).split('\n');
  return `line ${lines.length}, column ${(lines.at(-1)?.length ?? 0) + 1}`;
}

function received(text: string, offset: number): string {
  const piece = text.slice(offset, offset + 20).split('\n')[0] ?? '';
  return offset >= text.length ? 'the end of the text' : piece;
}

function refuse(path: string, expected: string, given: string): ParsedJson {
  return { ok: false, issues: [{ path, expected, received: given }] };
}
