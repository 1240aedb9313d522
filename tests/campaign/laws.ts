import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { AT } from '../../sim/column/bed.ts';
import { ledgerError } from '../../sim/column/ledger.ts';
import { bedLengthOf } from '../../sim/column/measure.ts';
import { parseLog } from '../../sim/input/log.ts';
import { parseScenario, readScenario } from '../../sim/input/scenario.ts';
import { act, advance, type Run, runOf } from '../../sim/run/run.ts';
import type { Action, Issue, Scenario } from '../../sim/terms/types.ts';
import { readRunFile } from '../../src/store/keep/files.ts';
import { decodeLink, encodeLink } from '../../src/store/keep/link.ts';
import { openAutosave } from '../../src/store/keep/storage.ts';
import { caseOf } from '../sim/run/case.ts';
import { memory } from '../src/store/memory.ts';
import { action, actions, mutantsOf, scenarioJson } from './cases.ts';

// What has to hold whatever comes in. A law is a property of fast-check; it fails by throwing.

export interface Law {
  readonly name: string;
  readonly property: () => fc.IRawProperty<unknown, boolean>;
}

/** Steps of one run: enough for a separation, and an end for what would be long. */
const STEPS = 4000;
const SCENARIOS = join(import.meta.dirname, '..', '..', 'scenarios');
const texts = readdirSync(SCENARIOS)
  .filter((name) => name.endsWith('.json') && name !== 'schema.json')
  .map((name) => readFileSync(join(SCENARIOS, name), 'utf8'));
const bench = caseOf();
const logText = JSON.stringify([
  { do: 'clamp', open_percent: 100 },
  { do: 'pour', liquid: 'acid', volume_mL: 2, how: 'wall', hold_level: true },
  { do: 'wait', until: { ion: 'Co', edge: 'leading', depth_cm: 1 } },
  { do: 'receiver', label: 'cobalt', at_mL: 3 },
  { do: 'fault', fault: { kind: 'channel', severity: 0.5, side_deg: 90 } },
]);
const saved = { base: 'cathode-leach', differences: { bed: { plates: 10 } }, seed: 1, log: JSON.parse(logText) as Action[], now_min: 2 };
const fileText = JSON.stringify({ kind: 'bandfall-run', version: 1, ...saved });
const keptText = JSON.stringify({ version: 1, tab: 'a', run: saved });
const link = await encodeLink(saved);

export const LAWS: readonly Law[] = [
  { name: 'actions', property: () => fc.property(scenarioJson, actions, (json, list) => runKeepsItsLaws(json, list)) },
  { name: 'refusals', property: () => fc.property(scenarioJson, actions, action, (json, list, last) => refusalLeavesNoTrace(json, list, last)) },
  { name: 'scenario texts', property: () => fc.property(mutantsOf(texts), scenarioIsReadOrRefused) },
  { name: 'log texts', property: () => fc.property(mutantsOf([logText]), (text) => readOrRefused(parseLog(text, bench))) },
  { name: 'run files', property: () => fc.property(mutantsOf([fileText]), (text) => readOrRefused(readRunFile(text))) },
  { name: 'kept runs', property: () => fc.property(mutantsOf([keptText]), keptIsReadOrPutAside) },
  { name: 'links', property: () => fc.asyncProperty(mutantsOf(link.ok ? [link.value] : []), linkIsReadOrRefused) },
];

function legal(json: unknown): Scenario {
  const read = readScenario(json, 'random');
  fc.pre(read.ok);
  return read.scenario;
}

function runKeepsItsLaws(json: unknown, list: readonly unknown[]): boolean {
  // The bench is handed whatever a page could hand it.
  const run = runOf(legal(json), list as Action[]);
  advance(run, { endOfLog: true, steps: STEPS });
  return holds(run);
}

function refusalLeavesNoTrace(json: unknown, list: readonly unknown[], last: unknown): boolean {
  const run = runOf(legal(json), list as Action[]);
  advance(run, { endOfLog: true, steps: STEPS });
  const s = run.bed.scalar;
  run.log.length = s[AT.entry];
  s[AT.entryTime] = -1;
  const before = run.bed.buffer.slice(0);
  const event = act(run, last as Action);
  if (!event?.refused) return true;
  const old = new Float64Array(before);
  for (const slot of [AT.entry, AT.changed]) s[slot] = old[slot];
  return same(before, run.bed.buffer) || fail('a refused action changed the state');
}

function holds(run: Run): boolean {
  const { bed, column } = run;
  for (const [name, array] of Object.entries({
    pore: bed.pore,
    sorbed: bed.sorbed,
    still: bed.still,
    head: bed.head,
    tip: bed.tip,
    receivers: bed.receivers,
  })) {
    const bad = array.findIndex((value) => !(value >= 0 && value < 1e9));
    if (bad >= 0) return fail(`${name}[${bad}] is ${array[bad]}`);
  }
  const error = Math.max(bed.scalar[AT.worstLedger], ledgerError(bed, column));
  if (!(error < 1e-9)) return fail(`ledger open by ${error}`);
  const above = bed.scalar[AT.headVolume];
  // A bed that has shrunk since it was packed leaves more of the tube to the liquid.
  const rim = column.section * (column.scenario.values['column.tube_cm'] - bedLengthOf(bed, column));
  if (!(above >= 0 && above <= rim + 1e-9)) return fail(`${above} mL above the bed in a tube for ${rim}`);
  if (!bed.taken.every((share) => share >= 0 && share <= 1 + 1e-6)) return fail('more than the capacity is taken');
  return Number.isFinite(bed.scalar[AT.time]) || fail('time is not a number');
}

function scenarioIsReadOrRefused(text: string): boolean {
  const read = parseScenario(text, 'mutant');
  if (!read.ok) return bounded(read.issues);
  const { values, ions } = read.scenario;
  if (values['bed.plates'] * values['bed.lanes'] * ions.length > 3000) return true;
  const run = runOf(read.scenario);
  advance(run, { endOfLog: true, steps: 40 });
  return holds(run);
}

function readOrRefused(read: { readonly ok: true } | { readonly ok: false; readonly issues: readonly Issue[] }): boolean {
  return read.ok || bounded(read.issues);
}

function keptIsReadOrPutAside(text: string): boolean {
  const storage = memory({ 'bandfall.run': text });
  const autosave = openAutosave(storage, 'b');
  const load = autosave.load();
  if (load.ok && load.value) return autosave.save(load.value).ok || fail('a run that was read could not be written');
  return autosave.unread()[0]?.text === text || fail('what could not be read is lost');
}

async function linkIsReadOrRefused(text: string): Promise<boolean> {
  const read = await decodeLink(text);
  return read.ok || read.message.length < 2000 || fail(`message of ${read.message.length} characters`);
}

function bounded(issues: readonly Issue[]): boolean {
  if (issues.length === 0) return fail('refused without an issue');
  const longest = Math.max(...issues.flatMap(({ path, expected, received }) => [path.length, expected.length, received.length]));
  return (longest < 3000 && issues.length <= 201) || fail(`${issues.length} issues, the longest part of ${longest} characters`);
}

function same(a: ArrayBuffer, b: ArrayBuffer): boolean {
  const [x, y] = [new Uint32Array(a), new Uint32Array(b)];
  return x.every((value, i) => value === y[i]);
}

function fail(why: string): never {
  throw new Error(why);
}
