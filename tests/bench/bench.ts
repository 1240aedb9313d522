import { readFileSync } from 'node:fs';
import { AT } from '../../sim/column/bed.ts';
import { checkpointOf, restoreTo, type Run, runWhole } from '../../sim/run/run.ts';
import { parseScenario } from '../../sim/input/scenario.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { movedReceiver } from '../../sim/history/index.ts';
import { Planner } from '../../src/store/threads/planner.ts';
import { odexRatio } from './odex-ratio.ts';

// Speed of the model, always on case.json, whatever the defaults of the day are. Noise is large: read ratios within one run, and the best of several repeats.

const REPEATS = 7;

const scenario = caseScenario();
const one: Scenario = { ...scenario, values: { ...scenario.values, 'bed.lanes': 1 } };

let run: Run = runWhole(scenario);
const thirteen = best(
  'whole run of the case, 13 lanes x 100 plates x (HCl, Co, Ni)',
  () => {
    run = runWhole(scenario);
  },
  35,
);
const steps = run.bed.scalar[AT.steps];
const cells = run.bed.lanes * run.bed.plates;
best('whole run of the case, 1 lane', () => runWhole(one), 3);
line('per cell and step', `${((thirteen * 1e6) / (steps * cells)).toFixed(1)} ns (${steps} steps of ${cells} cells)`);

const point = checkpointOf(run);
best('checkpoint', () => checkpointOf(run));
best('restore', () => restoreTo(run, point));
line('state', `${(point.state.byteLength / 1024).toFixed(0)} kB`);

const planner = new Planner(scenario);
const plan = planner.plan(scenario.procedure);
const late = plan.events.findLast(({ action }) => action?.do === 'receiver');
let shift = 0;
best(
  'recompute after moving the last receiver change',
  () => {
    shift = shift === 0 ? 0.5 : 0;
    planner.plan(movedReceiver(plan.log, plan.events, late?.entry ?? 0, (late?.delivered_mL ?? 0) + shift));
  },
  20,
);
const pours = plan.log.flatMap((action, i) => (action.do === 'pour' ? [i] : []));
const third = pours[Math.floor((pours.length * 2) / 3)];
best(
  'recompute the last third after a changed pour',
  () => {
    shift = shift === 0 ? 0.1 : 0;
    planner.plan(plan.log.map((action, i) => (i === third && action.do === 'pour' ? { ...action, volume_mL: action.volume_mL - shift } : action)));
  },
  20,
);

odexRatio(line);

function caseScenario(): Scenario {
  const read = parseScenario(readFileSync(new URL('case.json', import.meta.url), 'utf8'), 'case');
  if (!read.ok) throw new Error(`case: expected a sound scenario, received ${read.issues.length} issues`);
  return read.scenario;
}

/** Best of several repeats, ms; printed, beside the aim where there is one. */
function best(name: string, work: () => unknown, aim_ms?: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < REPEATS; i++) {
    const start = performance.now();
    work();
    least = Math.min(least, performance.now() - start);
  }
  line(name, `${least < 1 ? least.toFixed(3) : least.toFixed(1)} ms${aim_ms === undefined ? '' : `, aim ${aim_ms}`}`);
  return least;
}

function line(name: string, value: string): void {
  process.stdout.write(`${name.padEnd(64)} ${value}\n`);
}
