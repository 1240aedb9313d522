import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Log, Scenario } from '../../../sim/terms/types.ts';
import { readScenario } from '../../../sim/input/scenario.ts';
import type { ModelThread } from '../../../src/store/threads/model-thread.ts';
import { readRun } from '../../../src/store/threads/reading.ts';
import { Planner } from '../../../src/store/threads/planner.ts';

// A shipped scenario, smaller where the size does not matter, and the model without a thread.

const SCENARIOS = join(import.meta.dirname, '..', '..', '..', 'scenarios');

export function shipped(id = 'cathode-leach', changes: Readonly<Record<string, unknown>> = {}): Scenario {
  const json: unknown = { ...(JSON.parse(readFileSync(join(SCENARIOS, `${id}.json`), 'utf8')) as object), ...changes };
  const read = readScenario(json, id);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.scenario;
}

/** Few lanes, and beads that hold their liquid where the clamp stays open; everything else as shipped. */
export function small(): Scenario {
  return shipped('cathode-leach', { bed: { lanes: 3, air_entry_wall: 0.3 } });
}

/** Answers like the worker, one turn later each time. */
export function directThread(): ModelThread {
  let planner: Planner | undefined;
  const ready = (): Planner => {
    if (!planner) throw new Error('expected an open scenario');
    return planner;
  };
  return {
    read: async (json, id, log) => {
      await Promise.resolve();
      return readRun(json, id, log);
    },
    open: async (scenario: Scenario, log: Log) => {
      await Promise.resolve();
      planner = new Planner(scenario);
      return planner.plan(log);
    },
    plan: async (log) => {
      await Promise.resolve();
      return ready().plan(log);
    },
    rough: async (log) => {
      await Promise.resolve();
      return ready().rough(log);
    },
    moment: async (time) => {
      await Promise.resolve();
      return ready().moment(time);
    },
    close: () => {
      planner = undefined;
    },
  };
}
