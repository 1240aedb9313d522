// A run as a student hands it in: one small file of our own, JSON. It holds what was done and the results that are claimed.
import {
  type Shape,
  addIssue,
  cutOffAfter,
  describe,
  isRecord,
  logShape,
  merged,
  number,
  object,
  own,
  parseJson,
  readLog,
  readScenario,
  TEXT_MAX,
  text,
} from '../input/index.ts';
import { fingerprint } from '../math/fingerprint.ts';
import { SEED_MAX } from '../math/random.ts';
import type { Issue, Log, Scenario } from '../terms/types.ts';
import { type Answer, answersShape, type Under, underShape } from './answers.ts';
import { type Claimed, claimedShape } from './claimed.ts';
import { type Prediction, predictionsShape } from './predictions.ts';

export const HANDED_KIND = 'bandfall-handed-in';
export const HANDED_VERSION = 1;

export interface HandedIn {
  /** Name or code, as typed. */
  readonly who: string;
  /** Id of a shipped scenario; one with what differs from it, as `{base, differences}`; or the JSON of another. */
  readonly scenario: unknown;
  readonly seed: number;
  readonly log: Log;
  readonly predictions: readonly Prediction[];
  readonly claimed: Claimed;
  /** There when the run was made from a hand-out. */
  readonly under?: Under;
  readonly answers?: readonly Answer[];
}

/** A run that can be computed again. */
export interface HandedRun extends Omit<HandedIn, 'scenario'> {
  readonly scenario: Scenario;
  /** The text still has the mark it was written with. This finds slips only: whoever changes a file on purpose can compute the mark again. */
  readonly unchanged: boolean;
}

/** `foreign`: of another kind or version, or of a scenario that is not known here. `damaged`: a handed-in run that cannot be read. */
export type HandedReading =
  | { readonly ok: true; readonly run: HandedRun }
  | { readonly ok: false; readonly because: 'foreign' | 'damaged'; readonly issues: readonly Issue[] };

export const WHO_MAX = 80;
/** Read separately: a scenario has its own reader. */
const scenarioPart: Shape<unknown> = { schema: { type: ['string', 'object'] }, read: (value) => value ?? '' };

const handedShape = object(
  'a handed-in run',
  {
    kind: text(40),
    version: number({ min: 1, max: HANDED_VERSION, unit: '', integer: true }),
    who: text(WHO_MAX),
    scenario: scenarioPart,
    seed: number({ min: 0, max: SEED_MAX, unit: '', integer: true }),
    log: logShape,
    claimed: claimedShape,
    check: text(8),
  },
  { predictions: predictionsShape, under: underShape, answers: answersShape },
);

/** Text of the file. The same content gives the same text. */
export function handedInText({ who, scenario, seed, log, predictions, claimed, under, answers }: HandedIn, space = 1): string {
  const task = { ...(under && { under }), ...(answers && answers.length > 0 && { answers }) };
  const content = { kind: HANDED_KIND, version: HANDED_VERSION, who, scenario, seed, log, predictions, claimed, ...task };
  return `${JSON.stringify({ ...content, check: markOf(content) }, null, space)}\n`;
}

/** Reads a handed-in file. `known` gives the JSON of a shipped scenario. Never throws. */
export async function readHandedIn(source: string, known: (id: string) => Promise<unknown>): Promise<HandedReading> {
  const parsed = parseJson(source, 'file');
  if (!parsed.ok) return { ok: false, because: 'damaged', issues: parsed.issues.map((issue) => cutOff(source, issue) ?? issue) };
  const stranger = strangerIn(parsed.json);
  if (stranger) return { ok: false, because: 'foreign', issues: [stranger] };
  const issues: Issue[] = [];
  const read = handedShape.read(parsed.json, '', issues);
  if (!read || issues.length > 0) return { ok: false, because: 'damaged', issues };
  const { base, differences } = namedIn(read.scenario);
  const shipped = base === undefined ? undefined : await known(base);
  if (base !== undefined && shipped === undefined) return { ok: false, because: 'foreign', issues: [unknownScenario(base)] };
  const scenario = readScenario(base === undefined ? read.scenario : merged(shipped, differences), base ?? 'own');
  if (!scenario.ok) return { ok: false, because: 'damaged', issues: scenario.issues.map((issue) => ({ ...issue, path: `scenario.${issue.path}` })) };
  const log = readLog(read.log, scenario.scenario);
  if (!log.ok) return { ok: false, because: 'damaged', issues: log.issues };
  const { who, seed, predictions = [], claimed, check, under, answers = [] } = read;
  const unchanged = isRecord(parsed.json) && markOf(withoutMark(parsed.json)) === check;
  return {
    ok: true,
    run: { who, seed, predictions, claimed, unchanged, answers, ...(under && { under }), log: log.log, scenario: { ...scenario.scenario, seed } },
  };
}

/** The shipped scenario that a file names, with what differs from it; `base` undefined where the file holds a whole scenario. */
export function namedIn(scenario: unknown): { readonly base: string | undefined; readonly differences: unknown } {
  if (typeof scenario === 'string') return { base: scenario, differences: {} };
  const base = own(scenario, 'base');
  return typeof base === 'string' ? { base, differences: own(scenario, 'differences') ?? {} } : { base: undefined, differences: {} };
}

/** A file that ends too soon is told as that, and not as what would have had to come next. */
function cutOff(source: string, { path }: Issue): Issue | undefined {
  const lines = source.length > TEXT_MAX ? undefined : cutOffAfter(source);
  if (lines === undefined) return undefined;
  return { path, expected: 'a whole file', received: lines === 0 ? 'one that is cut off in line 1' : `one that is cut off after line ${lines}` };
}

function strangerIn(json: unknown): Issue | undefined {
  const [kind, version] = [own(json, 'kind'), own(json, 'version')];
  const issues: Issue[] = [];
  if (kind !== HANDED_KIND) addIssue(issues, 'kind', `"${HANDED_KIND}"`, describe(isRecord(json) ? kind : json));
  else if (typeof version === 'number' && version > HANDED_VERSION)
    addIssue(issues, 'version', `${HANDED_VERSION}`, `${version}; it was made by a newer version of the page`);
  return issues[0];
}

function unknownScenario(id: unknown): Issue {
  return { path: 'scenario', expected: 'a scenario that comes with this page', received: describe(id) };
}

function withoutMark(json: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  const { check: _check, ...content } = json;
  return content;
}

/** Eight hexadecimal digits. Spaces and line ends between values do not matter, the order of keys does. */
function markOf(content: Readonly<Record<string, unknown>>): string {
  return (fingerprint(JSON.stringify(content)) >>> 0).toString(16).padStart(8, '0');
}
