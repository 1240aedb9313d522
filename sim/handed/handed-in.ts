// A run as a student hands it in: one small file of our own, JSON. It holds what was done and the results that are claimed.
import {
  ACTIONS_MAX,
  addIssue,
  describe,
  isRecord,
  LABEL_MAX,
  list,
  logShape,
  number,
  object,
  own,
  parseJson,
  readLog,
  readScenario,
  type Shape,
  text,
} from '../input/index.ts';
import { fingerprint } from '../math/fingerprint.ts';
import { SEED_MAX } from '../math/random.ts';
import { ION_IDS, type IonId } from '../terms/ions.ts';
import { RUN_MAX_MIN } from '../terms/limits.ts';
import type { Amounts, Issue, Log, Scenario } from '../terms/types.ts';
import { type Prediction, predictionsShape } from './predictions.ts';

export const HANDED_KIND = 'bandfall-handed-in';
export const HANDED_VERSION = 1;

/** Amounts (mmol) and volume in one receiver, as the page showed them. */
export type ClaimedReceiver = Readonly<{ label: string; volume_mL: number } & Amounts>;

/** What the student's page came to when the run was handed in. */
export interface Claimed {
  readonly time_min: number;
  readonly delivered_mL: number;
  readonly receivers: readonly ClaimedReceiver[];
}

export interface HandedIn {
  /** Name or code, as typed. */
  readonly who: string;
  /** Id of a shipped scenario, or the JSON of another. */
  readonly scenario: unknown;
  readonly seed: number;
  readonly log: Log;
  readonly predictions: readonly Prediction[];
  readonly claimed: Claimed;
}

/** A run that can be computed again. */
export interface HandedRun extends Omit<HandedIn, 'scenario'> {
  readonly scenario: Scenario;
  /** The text still has the mark it was written with. This finds slips only: whoever changes a file on purpose can compute the mark again. */
  readonly unchanged: boolean;
}

/** `foreign`: not of this kind or version, or of a scenario not known here. `damaged`: it is, but cannot be read. */
export type HandedReading =
  | { readonly ok: true; readonly run: HandedRun }
  | { readonly ok: false; readonly because: 'foreign' | 'damaged'; readonly issues: readonly Issue[] };

export const WHO_MAX = 80;
const RECEIVERS_MAX = ACTIONS_MAX + 1;
const amount = number({ min: 0, max: 1e6, unit: 'mmol' });
const volume = number({ min: 0, max: 1e6, unit: 'mL' });

/** A shape an ion; the keys are made from the ions. */
const ionAmounts = Object.fromEntries(ION_IDS.map((ion) => [`${ion}_mmol`, amount])) as Readonly<Record<`${IonId}_mmol`, Shape<number>>>;

const receiverShape: Shape<ClaimedReceiver> = object('a receiver', { label: text(LABEL_MAX), volume_mL: volume, HCl_mmol: amount }, ionAmounts);

const claimedShape: Shape<Claimed> = object(
  'claimed figures',
  {
    time_min: number({ min: 0, max: 2 * RUN_MAX_MIN, unit: 'min' }),
    delivered_mL: volume,
    receivers: list('receivers', receiverShape, 1, RECEIVERS_MAX),
  },
  {},
);

/** Read by itself: a scenario has a reader of its own. */
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
  { predictions: predictionsShape },
);

/** Text of the file. The same content gives the same text. */
export function handedInText({ who, scenario, seed, log, predictions, claimed }: HandedIn): string {
  const content = { kind: HANDED_KIND, version: HANDED_VERSION, who, scenario, seed, log, predictions, claimed };
  return `${JSON.stringify({ ...content, check: markOf(content) }, null, 1)}\n`;
}

/** Reads a handed-in file. `known` gives the JSON of a shipped scenario. Never throws. */
export async function readHandedIn(source: string, known: (id: string) => Promise<unknown>): Promise<HandedReading> {
  const parsed = parseJson(source, 'file');
  if (!parsed.ok) return { ok: false, because: 'damaged', issues: parsed.issues };
  const stranger = strangerIn(parsed.json);
  if (stranger) return { ok: false, because: 'foreign', issues: [stranger] };
  const issues: Issue[] = [];
  const read = handedShape.read(parsed.json, '', issues);
  if (!read || issues.length > 0) return { ok: false, because: 'damaged', issues };
  const json = typeof read.scenario === 'string' ? await known(read.scenario) : read.scenario;
  if (json === undefined) return { ok: false, because: 'foreign', issues: [unknownScenario(read.scenario)] };
  const scenario = readScenario(json, typeof read.scenario === 'string' ? read.scenario : 'own');
  if (!scenario.ok) return { ok: false, because: 'damaged', issues: scenario.issues.map((issue) => ({ ...issue, path: `scenario.${issue.path}` })) };
  const log = readLog(read.log, scenario.scenario);
  if (!log.ok) return { ok: false, because: 'damaged', issues: log.issues };
  const { who, seed, predictions = [], claimed, check } = read;
  const unchanged = isRecord(parsed.json) && markOf(withoutMark(parsed.json)) === check;
  return { ok: true, run: { who, seed, predictions, claimed, unchanged, log: log.log, scenario: { ...scenario.scenario, seed } } };
}

function strangerIn(json: unknown): Issue | undefined {
  const [kind, version] = [own(json, 'kind'), own(json, 'version')];
  const issues: Issue[] = [];
  if (kind !== HANDED_KIND) addIssue(issues, 'kind', `"${HANDED_KIND}"`, describe(isRecord(json) ? kind : json));
  else if (typeof version === 'number' && version > HANDED_VERSION) addIssue(issues, 'version', `${HANDED_VERSION}`, `${version}; it was made by a newer page`);
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
