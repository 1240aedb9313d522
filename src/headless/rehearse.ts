// Runs a scenario from the command line: the same model and the same figures as the page.
import { readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { applySettings, parseJson, parseLog, readScenario, type ScenarioResult } from '../../sim/input/index.ts';
import { resultsOf, type Run, RUN_ENDED, runWhole } from '../../sim/run/index.ts';
import type { Issue, Scenario } from '../../sim/terms/types.ts';
import { readWorkUpLog, type WorkUpLogResult } from '../../sim/workup/index.ts';
import { calibrationOf } from './calibrate.ts';
import { curveCsv } from './curve.ts';
import { groupsFrom, groupsJson } from './groups.ts';
import { tableOf } from './table.ts';
import { objections, verified } from './verify.ts';
import { workUpOf, type WorkUps, workUpsLines } from './workup.ts';

const USAGE =
  'usage: npm run -s rehearse -- scenarios/NAME.json [--log FILE] [--set path=value ...] [--seed N] [--json] [--curve FILE.csv] [--workup [--receiver LABEL] [--steps FILE]] | scenarios/NAME.json --groups N | scenarios/NAME.json --calibrate MEASUREMENTS.csv --date DAY | --verify FILE ...';

const OPTIONS = {
  log: { type: 'string' },
  set: { type: 'string', multiple: true },
  seed: { type: 'string' },
  json: { type: 'boolean' },
  curve: { type: 'string' },
  workup: { type: 'boolean' },
  receiver: { type: 'string' },
  steps: { type: 'string' },
  groups: { type: 'string' },
  calibrate: { type: 'string' },
  date: { type: 'string' },
  verify: { type: 'boolean' },
} as const;

try {
  await main();
} catch (error) {
  fail([{ path: 'command', expected: USAGE, received: error instanceof Error ? error.message : String(error) }]);
}

async function main(): Promise<void> {
  const { values, positionals } = parseArgs({ options: OPTIONS, allowPositionals: true });
  if (values.verify === true) return verify(positionals);
  if (positionals.length !== 1) return fail([{ path: 'command', expected: USAGE, received: `${positionals.length} scenario files` }]);
  const settings = [...(values.set ?? []), ...(values.seed === undefined ? [] : [`seed=${values.seed}`])];
  const read = scenarioFrom(positionals[0], settings);
  if (!read.ok) return fail(read.issues);
  if (values.groups !== undefined) return forecast(read.scenario, values.groups);
  if (values.calibrate !== undefined) return calibrate(read.scenario, positionals[0], settings, values.calibrate, values.date);
  const log = values.log === undefined ? undefined : parseLog(contents(values.log), read.scenario);
  if (log && !log.ok) return fail(log.issues);
  const alone = (['receiver', 'steps'] as const).filter((option) => values[option] !== undefined && values.workup !== true);
  if (alone.length > 0) return fail(alone.map((option) => ({ path: `--${option}`, expected: '--workup with it', received: 'no --workup' })));
  const steps = values.steps === undefined ? undefined : stepsFrom(values.steps);
  if (steps && !steps.ok) return fail(steps.issues);
  const run = runWhole(read.scenario, log?.log);
  const workup = values.workup === true ? workUpOf(run, values.receiver, steps?.log) : undefined;
  if (workup && !workup.ok) return fail(workup.issues);
  report(run, values.json === true, values.curve, workup?.workups);
  // The figures up to there are printed; the rest was not computed.
  const ended = run.events.find(({ note }) => note?.startsWith(RUN_ENDED));
  if (ended) fail([{ path: 'run', expected: 'its log done', received: ended.note ?? '' }]);
}

async function forecast(scenario: Scenario, wanted: string): Promise<void> {
  const groups = groupsFrom(wanted);
  if (typeof groups !== 'number') return fail([groups]);
  process.stdout.write(await groupsJson(scenario, groups));
}

function calibrate(scenario: Scenario, file: string, settings: readonly string[], table: string, date: string | undefined): void {
  const parsed = parseJson(contents(file), 'scenario');
  const outcome = parsed.ok ? calibrationOf(scenario, parsed.json, settings, contents(table), date) : parsed;
  if (!outcome.ok) return fail(outcome.issues);
  process.stdout.write(`${JSON.stringify(outcome.calibration, null, 2)}\n`);
}

async function verify(files: readonly string[]): Promise<void> {
  if (files.length === 0) return fail([{ path: '--verify', expected: 'handed-in files', received: 'none' }]);
  const taken = await verified(files);
  process.stdout.write(`${JSON.stringify(taken, null, 2)}\n`);
  const wrong = objections(taken);
  if (wrong.length > 0) fail(wrong);
}

function scenarioFrom(file: string, settings: readonly string[]): ScenarioResult {
  const parsed = parseJson(contents(file), 'scenario');
  if (!parsed.ok) return parsed;
  const set = applySettings(parsed.json, settings);
  return set.ok ? readScenario(set.json, basename(file, '.json')) : set;
}

function stepsFrom(file: string): WorkUpLogResult {
  const parsed = parseJson(contents(file), 'steps');
  return parsed.ok ? readWorkUpLog(parsed.json) : parsed;
}

function report(run: Run, json: boolean, curve: string | undefined, workups: WorkUps | undefined): void {
  const results = resultsOf(run);
  if (curve !== undefined) writeFileSync(curve, curveCsv(run));
  process.stdout.write(json ? `${JSON.stringify({ ...results, ...workups }, null, 2)}\n` : tableOf(run, results) + (workups ? workUpsLines(workups) : ''));
}

function contents(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    throw new Error(`${file}: ${error instanceof Error ? error.message : String(error)}`);
  }
}

/** All problems on stderr, one a line; exit code 2. */
function fail(issues: readonly Issue[]): void {
  for (const { path, expected, received } of issues) process.stderr.write(`${path}: expected ${expected}; received ${received}\n`);
  process.exitCode = 2;
}
