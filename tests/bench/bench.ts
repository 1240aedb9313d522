// Speed of the model beside its aims, on case.json whatever the defaults of the day are: npm run bench [-- --markdown] [-- --odex].
// `--markdown` writes the table into DEVELOPERS.md. Noise is large: the best of several repeats, and ratios within one run, say most.
import { readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism, loadavg } from 'node:os';
import { forClass } from '../../sim/class/index.ts';
import { AT } from '../../sim/column/index.ts';
import { movedReceiver, type Results } from '../../sim/history/index.ts';
import { parseScenario } from '../../sim/input/scenario.ts';
import { checkpointOf, restoreTo, runWhole } from '../../sim/run/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { inThreads } from '../../src/headless/threads.ts';
import { Planner } from '../../src/store/threads/planner.ts';
import { type AimId, AIMS, between, type Found, markdown, time, verdict } from './aims.ts';
import { odexRatio } from './odex-ratio.ts';

const REPEATS = 7;
const ALIQUOTS = 1000;
const MANUAL = new URL('../../DEVELOPERS.md', import.meta.url);

const circumstances = `${new Date().toISOString().slice(0, 10)}, Node ${process.versions.node}, ${availableParallelism()} cores; ${loadavg()[0].toFixed(1)} other threads wanted to run at the start, so read wall times as ${loadavg()[0] < 0.5 ? 'those of a quiet machine' : 'upper bounds'}.`;
const found: Found[] = [];
const scenario = scenarioAt('case.json');
const one: Scenario = { ...scenario, values: { ...scenario.values, 'bed.lanes': 1 } };

const run = runWhole(scenario);
const thirteen = await best('thirteen', () => runWhole(scenario));
const [steps, cells] = [run.bed.scalar[AT.steps], run.bed.lanes * run.bed.plates];
await best('one', () => runWhole(one));
await recomputed();
const day = scenarioAt('../../scenarios/lab-day.json');
await best('day', () => runWhole({ ...day, values: { ...day.values, 'bed.lanes': 13 } }));
await aliquots();

line(
  'per cell and step of the case',
  `${((thirteen.processor_ms * 1e6) / (steps * cells)).toFixed(1)} ns of processor time (${steps} steps of ${cells} cells)`,
);
const point = checkpointOf(run);
line(
  'checkpoint, restore',
  `${timed(() => checkpointOf(run)).toFixed(3)} ms, ${timed(() => restoreTo(run, point)).toFixed(3)} ms (${(point.state.byteLength / 1024).toFixed(0)} kB)`,
);
if (process.argv.includes('--odex')) odexRatio(line);
if (process.argv.includes('--markdown')) writeFileSync(MANUAL, between(readFileSync(MANUAL, 'utf8'), 'bench', markdown(found, circumstances)));

/** What a moved handle costs: the run from the last state that old and new log share. */
async function recomputed(): Promise<void> {
  const planner = new Planner(scenario);
  const plan = planner.plan(scenario.procedure);
  const late = plan.events.findLast(({ action }) => action?.do === 'receiver');
  const pours = plan.log.flatMap((action, i) => (action.do === 'pour' ? [i] : []));
  const third = pours[Math.floor((pours.length * 2) / 3)];
  let shift = 0;
  await best('receiver', () => {
    shift = shift === 0 ? 0.5 : 0;
    planner.plan(movedReceiver(plan.log, plan.events, late?.entry ?? 0, (late?.delivered_mL ?? 0) + shift));
  });
  await best('third', () => {
    shift = shift === 0 ? 0.1 : 0;
    planner.plan(plan.log.map((action, i) => (i === third && action.do === 'pour' ? { ...action, volume_mL: action.volume_mL - shift } : action)));
  });
}

async function aliquots(): Promise<void> {
  const lab = forClass(scenarioAt('../../scenarios/cathode-leach.json'));
  const seeds = Array.from({ length: ALIQUOTS }, (_, i) => i + 1);
  await best('thousand', () => inThreads<number, Results>(new URL('aliquot-thread.ts', import.meta.url), lab, seeds, 2), 2);
}

/** Best of several repeats; printed beside the aim. */
async function best(id: AimId, work: () => unknown, repeats = REPEATS): Promise<Found> {
  let [wall_ms, processor_ms] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let i = 0; i < repeats; i++) {
    const before = process.cpuUsage();
    const start = performance.now();
    await work();
    wall_ms = Math.min(wall_ms, performance.now() - start);
    const { user, system } = process.cpuUsage(before);
    processor_ms = Math.min(processor_ms, (user + system) / 1000);
  }
  const result = { id, wall_ms, processor_ms, repeats };
  found.push(result);
  line(AIMS[id].name, `${time(wall_ms)} (${time(processor_ms)} of processor time), aim ${time(AIMS[id].aim_ms)}: ${verdict(result)}`);
  return result;
}

function timed(work: () => unknown): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < REPEATS; i++) {
    const start = performance.now();
    work();
    least = Math.min(least, performance.now() - start);
  }
  return least;
}

function scenarioAt(path: string): Scenario {
  const read = parseScenario(readFileSync(new URL(path, import.meta.url), 'utf8'), path.replace(/^.*\/|\.json$/g, ''));
  if (!read.ok) throw new Error(`${path}: expected a sound scenario, received ${read.issues.length} issues`);
  return read.scenario;
}

function line(name: string, value: string): void {
  process.stdout.write(`${name.padEnd(64)} ${value}\n`);
}
