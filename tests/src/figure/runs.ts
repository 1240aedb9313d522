import { readFileSync } from 'node:fs';
import { drawn } from '../../../sim/column/drawn.ts';
import { parseScenario } from '../../../sim/input/scenario.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { axisEnd } from '../../../src/figure/drawing.ts';
import { type Measured, measuredFor } from '../../../src/figure/streaks/measured.ts';
import { workedFor } from '../../../src/figure/worked.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import type { Plan } from '../../../sim/history/index.ts';

// Whole runs of the shipped scenarios, worked out once for all tests of a file.

export interface WholeRun {
  readonly scenario: Scenario;
  readonly planner: Planner;
  readonly plan: Plan;
}

const runs = new Map<string, WholeRun>();

export function wholeRun(name: string): WholeRun {
  const known = runs.get(name);
  if (known) return known;
  const read = parseScenario(readFileSync(new URL(`../../../scenarios/${name}.json`, import.meta.url), 'utf8'), name);
  if (!read.ok) throw new Error(`${name}: ${JSON.stringify(read.issues)}`);
  // The page, too, shows the column that the seed gives.
  const scenario = drawn(read.scenario);
  const planner = new Planner(scenario);
  const run = { scenario, planner, plan: planner.plan(scenario.procedure) };
  runs.set(name, run);
  return run;
}

export function workedRun(name: string, width = 900, height = 600): Measured {
  const { scenario, plan } = wholeRun(name);
  return measuredFor(undefined, workedFor(undefined, scenario, plan, { width, height }, axisEnd(scenario, plan)));
}
