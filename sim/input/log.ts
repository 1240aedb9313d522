// The log of bench actions as JSON: shapes, references to liquids and ions, and times that only go forward.
// What depends on the state of the bench (a pour that overflows the tube) the run refuses when it comes to it.
import { FAULT_KINDS } from '../terms/fault-kinds.ts';
import { ION_IDS } from '../terms/ions.ts';
import { type Limit, LIMITS } from '../terms/limits.ts';
import { parseJson } from './json.ts';
import { choice, flag, list, number, object, type Shape, text } from './reading.ts';
import { addIssue, describe, isRecord, oneOf, own, under } from './told.ts';
import type { Action, Fault, IonId, Issue, Log, Scenario, Unless, Until } from '../terms/types.ts';

export type LogResult = { readonly ok: true; readonly log: Log } | { readonly ok: false; readonly issues: readonly Issue[] };

/** What the actions of a log may refer to. */
export interface Bench {
  readonly ions: readonly string[];
  readonly liquids: readonly string[];
  /** cm; undefined if the scenario gives no valid value. */
  readonly bedLength: number | undefined;
}

export const ACTIONS_MAX = 500;
/** Longest label of a bottle or a receiver, characters. */
export const LABEL_MAX = 60;
const MM_IN_CM = 10;
const TIME = number(LIMITS['wait.time_min']);
const DELIVERED = number(LIMITS['wait.volume_mL']);

export const faultShape: Shape<Fault> = object(
  'a fault',
  { kind: choice('a kind of fault', FAULT_KINDS) },
  {
    severity: number(LIMITS['fault.severity']),
    side_deg: number(LIMITS['fault.side_deg']),
    depth_share: number(LIMITS['fault.depth_share']),
  },
);

const untilByKey: Readonly<Record<string, Shape<Until>>> = {
  time_min: object('a wait', { time_min: TIME }, {}),
  elapsed_min: object('a wait', { elapsed_min: TIME }, {}),
  delivered_mL: object('a wait', { delivered_mL: DELIVERED }, {}),
  more_mL: object('a wait', { more_mL: DELIVERED }, {}),
  liquid_mm: object('a wait', { liquid_mm: number(LIMITS['wait.liquid_mm']) }, {}),
  ion: object(
    'a wait for a band',
    { ion: choice('an ion', ION_IDS), edge: choice('an edge', ['leading', 'trailing']), depth_cm: number(LIMITS['wait.depth_cm']) },
    {},
  ),
};

const UNTIL_KEYS = ['time_min', 'elapsed_min', 'delivered_mL', 'more_mL', 'liquid_mm', 'ion'] as const;
/** These go with `ion`. */
const BAND_KEYS: readonly string[] = ['edge', 'depth_cm'];

const untilShape: Shape<Until> = {
  schema: { oneOf: Object.values(untilByKey).map(({ schema }) => schema) },
  read(value, path, issues) {
    const keys = isRecord(value) ? UNTIL_KEYS.filter((key) => own(value, key) !== undefined) : [];
    const [key] = keys;
    const shape = key === undefined ? undefined : untilByKey[key];
    if (shape && keys.length === 1) return shape.read(value, path, issues);
    const received = keys.length > 1 ? keys.join(' and ') : describe(value);
    addIssue(issues, path, `one of ${UNTIL_KEYS.join(', ')} (ion with ${BAND_KEYS.join(' and ')}), only one`, received);
    return undefined;
  },
};

const unlessShape: Shape<Unless> = object(
  'a reason to leave a pour out',
  { ion: choice('an ion', ION_IDS), above_bottom_mm: number(LIMITS['unless.above_bottom_mm']) },
  {},
);

const WHEN = { at_min: TIME, at_mL: DELIVERED } as const;
const label = text(LABEL_MAX);

const actionByName: Readonly<Record<string, Shape<Action>>> = {
  pour: object(
    'a pour',
    { do: choice('an action', ['pour']), liquid: text(LABEL_MAX), volume_mL: number(LIMITS['pour.volume_mL']) },
    { how: choice('a way to pour', ['wall', 'bed']), hold_level: flag(), unless: unlessShape, ...WHEN },
  ),
  clamp: object('a clamp action', { do: choice('an action', ['clamp']), open_percent: number(LIMITS['clamp.open_percent']) }, WHEN),
  receiver: object('a receiver action', { do: choice('an action', ['receiver']), label }, WHEN),
  wait: object('a wait', { do: choice('an action', ['wait']), until: untilShape }, WHEN),
  'refill-from-below': object(
    'filling from below',
    { do: choice('an action', ['refill-from-below']), liquid: text(LABEL_MAX), volume_mL: number(LIMITS['refill-from-below.volume_mL']) },
    WHEN,
  ),
  pack: object(
    'a portion of resin',
    { do: choice('an action', ['pack']), resin_mL: number(LIMITS['pack.resin_mL']) },
    { pour: choice('a way to pour resin', ['once', 'spoonfuls']), into: choice('what resin is poured into', ['liquid', 'glass']), tapped: flag(), ...WHEN },
  ),
  'top-up': object('a top-up', { do: choice('an action', ['top-up']), resin_mL: number(LIMITS['top-up.resin_mL']) }, WHEN),
  spill: object('a spill', { do: choice('an action', ['spill']), share: number(LIMITS['spill.share']) }, WHEN),
  stir: object('a stir action', { do: choice('an action', ['stir']) }, WHEN),
  fault: object('a fault action', { do: choice('an action', ['fault']), fault: faultShape }, WHEN),
};

const actionShape: Shape<Action> = {
  schema: { type: 'object', oneOf: Object.values(actionByName).map(({ schema }) => schema), not: { type: 'object', required: ['at_min', 'at_mL'] } },
  read(value, path, issues) {
    const name = own(value, 'do');
    const shape = typeof name === 'string' && Object.hasOwn(actionByName, name) ? actionByName[name] : undefined;
    if (shape) return shape.read(value, path, issues);
    if (!isRecord(value)) addIssue(issues, path, 'an action, an object with do', describe(value));
    else addIssue(issues, under(path, 'do'), oneOf('an action', Object.keys(actionByName), typeof name === 'string' ? name : ''), describe(name));
    return undefined;
  },
};

export const logShape: Shape<Log> = list('actions', actionShape, 0, ACTIONS_MAX);

/** Reads the JSON of a log for a scenario: all of it, or all that is wrong with it. */
export function readLog(json: unknown, scenario: Pick<Scenario, 'ions' | 'liquids' | 'values'>): LogResult {
  const issues: Issue[] = [];
  const log = logShape.read(json, 'log', issues);
  checkLog(json, 'log', benchOf(scenario), issues);
  return log && issues.length === 0 ? { ok: true, log } : { ok: false, issues };
}

/** All that is wrong with one action, whatever stands before it in a log. Takes any value. */
export function issuesOf(action: unknown, scenario: Pick<Scenario, 'ions' | 'liquids' | 'values'>): readonly Issue[] {
  const issues: Issue[] = [];
  actionShape.read(action, '', issues);
  checkNames(action, '', benchOf(scenario), issues);
  if (own(action, 'at_min') !== undefined && own(action, 'at_mL') !== undefined) addIssue(issues, 'at_min', 'at_min or at_mL, not both', 'both');
  return issues;
}

/** The same from text. */
export function parseLog(source: string, scenario: Pick<Scenario, 'ions' | 'liquids' | 'values'>): LogResult {
  const parsed = parseJson(source, 'log');
  return parsed.ok ? readLog(parsed.json, scenario) : parsed;
}

/** Adds what no single value shows: names that refer to nothing, and clocks that run backwards. Takes any JSON. */
export function checkLog(json: unknown, path: string, bench: Bench, issues: Issue[]): void {
  if (!Array.isArray(json) || json.length > ACTIONS_MAX) return;
  const clocks = { min: 0, mL: 0 };
  json.forEach((action: unknown, i) => {
    const at = `${path}[${i}]`;
    checkNames(action, at, bench, issues);
    if (own(action, 'at_min') !== undefined && own(action, 'at_mL') !== undefined) addIssue(issues, at, 'at_min or at_mL, not both', 'both');
    const until = own(action, 'until');
    clocks.min = forward(own(action, 'at_min'), clocks.min, `${at}.at_min`, 'min', issues);
    clocks.min = forward(own(until, 'time_min'), clocks.min, `${at}.until.time_min`, 'min', issues);
    clocks.mL = forward(own(action, 'at_mL'), clocks.mL, `${at}.at_mL`, 'mL', issues);
    clocks.mL = forward(own(until, 'delivered_mL'), clocks.mL, `${at}.until.delivered_mL`, 'mL', issues);
  });
}

function benchOf({ ions, liquids, values }: Pick<Scenario, 'ions' | 'liquids' | 'values'>): Bench {
  return { ions, liquids: Object.keys(liquids), bedLength: values['bed.length_cm'] };
}

function checkNames(action: unknown, at: string, bench: Bench, issues: Issue[]): void {
  const liquid = ['pour', 'refill-from-below'].includes(String(own(action, 'do'))) ? own(action, 'liquid') : undefined;
  if (typeof liquid === 'string' && liquid !== '' && !bench.liquids.includes(liquid)) {
    addIssue(issues, under(at, 'liquid'), oneOf('a liquid of the scenario', bench.liquids, liquid), describe(liquid));
  }
  for (const key of ['until', 'unless']) checkIon(own(own(action, key), 'ion'), under(under(at, key), 'ion'), bench, issues);
  const until = under(at, 'until');
  checkHeight(own(own(action, 'until'), 'depth_cm'), under(until, 'depth_cm'), LIMITS['wait.depth_cm'], 1, bench, issues);
  const unless = under(at, 'unless');
  checkHeight(own(own(action, 'unless'), 'above_bottom_mm'), under(unless, 'above_bottom_mm'), LIMITS['unless.above_bottom_mm'], MM_IN_CM, bench, issues);
}

function checkIon(ion: unknown, path: string, bench: Bench, issues: Issue[]): void {
  if (!ION_IDS.includes(ion as IonId) || bench.ions.includes(String(ion))) return;
  addIssue(issues, path, oneOf('an ion of the scenario', bench.ions, ''), describe(ion));
}

/** A place in the bed lies within it. `perCm` of the limit's unit make a centimetre. */
function checkHeight(value: unknown, path: string, { max, unit }: Limit, perCm: number, { bedLength }: Bench, issues: Issue[]): void {
  if (bedLength === undefined || typeof value !== 'number' || value > max || value <= bedLength * perCm) return;
  addIssue(issues, path, `at most bed.length_cm (${bedLength} cm)`, `${value} ${unit}`);
}

/** The later of two readings of a clock; an issue if it goes back. Readings of the wrong type have their own issue. */
function forward(value: unknown, last: number, path: string, unit: string, issues: Issue[]): number {
  if (typeof value !== 'number' || Number.isNaN(value)) return last;
  if (value < last && value >= 0) addIssue(issues, path, `at least ${last} ${unit}, reached by an earlier action`, `${value} ${unit}`);
  return Math.max(last, value);
}
