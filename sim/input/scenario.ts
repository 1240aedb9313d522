// Scenario files: the shape of the JSON, and the reader that gives a whole scenario or everything that is wrong.
import { checkLog, faultShape, LABEL_MAX, logShape } from './log.ts';
import { checkScenario, plausible } from './consistency.ts';
import { FIELDS, type FieldPath, parameterDefaults } from '../terms/fields.ts';
import { SEED_MAX, SEED_USUAL } from '../math/random.ts';
import { GRADE_NAMES } from '../terms/grades.ts';
import { ION_IDS } from '../terms/ions.ts';
import { LIMITS } from '../terms/limits.ts';
import { DEPTH_MAX, parseJson } from './json.ts';
import { choice, dictionary, keyName, list, number, object, type Shape, text } from './reading.ts';
import { addIssue, isRecord, own } from './told.ts';
import { COACH_LEVELS, SEEINGS } from '../terms/seeing.ts';
import type { Fitted, Issue, Liquid, Scenario } from '../terms/types.ts';

export type ScenarioResult = { readonly ok: true; readonly scenario: Scenario } | { readonly ok: false; readonly issues: readonly Issue[] };

/** Longest date, and any number that a parameter can be. */
const DATE_MAX = 40;
const ANY_SIZE = number({ min: 0, max: 1e9, unit: '' });

const liquidShape: Shape<Omit<Liquid, 'ions'> & Partial<Pick<Liquid, 'ions'>>> = object(
  'a liquid',
  { label: text(LABEL_MAX), HCl_M: number(LIMITS['liquid.HCl_M']) },
  { ions: dictionary('ions', choice('an ion', ION_IDS), number(LIMITS['liquid.ion_M']), 0, ION_IDS.length) },
);

/** A row of a curve: HCl mol/L and D_v. */
const pointShape: Shape<readonly [number, number]> = {
  schema: { type: 'array', minItems: 2, maxItems: 2, items: { type: 'number', minimum: 0 } },
  read(value, path, issues) {
    if (!Array.isArray(value) || value.length !== 2) {
      addIssue(issues, path, 'a pair: HCl in mol/L and D_v', Array.isArray(value) ? `a list of ${value.length}` : typeof value);
      return undefined;
    }
    const acid = number({ min: 0, max: 13, unit: 'mol/L' }).read(value[0], `${path}[0]`, issues);
    const uptake = number({ min: 0, max: 1e9, unit: '' }).read(value[1], `${path}[1]`, issues);
    return acid === undefined || uptake === undefined ? undefined : [acid, uptake];
  },
};

/** Which parameters were fitted to a run of the user's own: the day it was done, as they wrote it, and the 95 % interval. */
const fittedShape: Shape<Fitted> = dictionary(
  'parameters',
  choice('a parameter', Object.keys(FIELDS) as FieldPath[]),
  object('a fit', { date: text(DATE_MAX), low: ANY_SIZE, high: ANY_SIZE }, {}),
  0,
  Object.keys(FIELDS).length,
);

/** The whole scenario file. Groups of parameters follow FIELDS. */
export const scenarioShape = object(
  'the scenario',
  {
    title: text(100),
    purpose: text(1000),
    ions: list('ions', choice('an ion', ION_IDS), 1, ION_IDS.length),
    liquids: dictionary('liquids', keyName('a name for a liquid'), liquidShape, 1, 20),
  },
  {
    $schema: text(200),
    notice: list('texts', text(500), 0, 20),
    sources: list('texts', text(500), 0, 30),
    curves: dictionary('curves', choice('an ion', ION_IDS), list('pairs', pointShape, 2, 200), 0, ION_IDS.length),
    faults: list('faults', faultShape, 0, 20),
    procedure: logShape,
    fitted: fittedShape,
    seeing: choice('a way of seeing the run before it ends', SEEINGS),
    coach: choice('how much the coach says', COACH_LEVELS),
    seed: number({ min: 0, max: SEED_MAX, unit: '', integer: true }),
    ...parameterGroups(),
  },
);

/** Reads the JSON of a scenario: a whole scenario with every default filled in, or all that is wrong with it. */
export function readScenario(json: unknown, id: string): ScenarioResult {
  const issues: Issue[] = [];
  if (deeperThan(json, DEPTH_MAX)) {
    addIssue(issues, 'scenario', `at most ${DEPTH_MAX} objects or lists inside one another`, 'more');
    return { ok: false, issues };
  }
  if (!isRecord(json)) {
    scenarioShape.read(json, 'scenario', issues);
    return { ok: false, issues };
  }
  const read = scenarioShape.read(json, '', issues);
  checkScenario(json, issues);
  checkLog(own(json, 'procedure'), 'procedure', benchOf(json), issues);
  if (!read || issues.length > 0) return { ok: false, issues };
  const { title, purpose, ions, notice = [], sources = [], curves = {}, faults = [], procedure = [], fitted, seeing, coach, seed = SEED_USUAL } = read;
  const liquids = Object.fromEntries(Object.entries(read.liquids).map(([name, liquid]) => [name, { ...liquid, ions: liquid.ions ?? {} }]));
  return {
    ok: true,
    scenario: {
      id,
      title,
      purpose,
      notice,
      sources,
      ions,
      liquids,
      values: valuesOf(json),
      curves,
      faults,
      procedure,
      seed,
      ...(fitted && { fitted }),
      ...(seeing && { seeing }),
      ...(coach && { coach }),
    },
  };
}

/** The same from the text of a file. */
export function parseScenario(source: string, id: string): ScenarioResult {
  const parsed = parseJson(source, 'scenario');
  return parsed.ok ? readScenario(parsed.json, id) : parsed;
}

/** One object shape per group of FIELDS: `bed` with `length_cm` and so on. */
function parameterGroups(): Readonly<Record<string, Shape<unknown>>> {
  const groups: Record<string, Record<string, Shape<number>>> = {};
  for (const [path, field] of Object.entries(FIELDS)) {
    const [group = '', name = ''] = path.split('.');
    const { schema, read } = number(field);
    const note = `${field.meaning}${field.unit === '' ? '' : `; ${field.unit}`} (${field.source}; ${field.status})`;
    const members = (groups[group] ??= {});
    members[name] = { schema: { title: field.label, description: note, default: field.default, ...schema }, read };
  }
  const grade = choice('a grade of resin', GRADE_NAMES);
  return Object.fromEntries(Object.entries(groups).map(([group, members]) => [group, object(group, {}, group === 'resin' ? { ...members, grade } : members)]));
}

/** Every parameter of a file already known to be sound. */
function valuesOf(json: unknown): Record<FieldPath, number> {
  const values = parameterDefaults();
  for (const path of Object.keys(values) as FieldPath[]) values[path] = plausible(json, path) ?? values[path];
  return values;
}

function benchOf(json: Readonly<Record<string, unknown>>) {
  const ions = own(json, 'ions');
  const liquids = own(json, 'liquids');
  return {
    ions: Array.isArray(ions) ? ions.map(String) : [],
    liquids: isRecord(liquids) ? Object.keys(liquids) : [],
    bedLength: plausible(json, 'bed.length_cm'),
  };
}

function deeperThan(value: unknown, depth: number): boolean {
  if (typeof value !== 'object' || value === null) return false;
  return depth === 0 || Object.values(value).some((part) => deeperThan(part, depth - 1));
}
