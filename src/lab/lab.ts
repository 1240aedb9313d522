import { inWords, readScenario } from '../../sim/input/index.ts';
import { valueAt } from '../../sim/lab/index.ts';
import { scenarioJson } from '../store/shipped/catalog.ts';
import { differences, patched } from '../store/keep/difference.ts';
import type { Json, Outcome, SavedRun } from '../store/keep/saved.ts';

/** A lab as it is being set up. It need not be valid: each problem is shown at its control. */
export interface Lab {
  /** Id of the scenario it started from. */
  readonly base: string;
  /** JSON of that scenario. */
  readonly start: Json;
  readonly json: Json;
  /** Students have to find the faults. */
  readonly hidden: boolean;
}

/** The lab to which a kept run belongs. */
export async function labOf(run: SavedRun): Promise<Outcome<Lab>> {
  let start: Json | undefined;
  try {
    start = await scenarioJson(run.base);
  } catch (error) {
    return { ok: false, message: `lab: the scenario could not be loaded (${error instanceof Error ? error.message : String(error)})` };
  }
  if (start === undefined) return { ok: false, message: `lab: expected a scenario that ships with the page, received ${run.base}` };
  const changed = patched(start, run.differences);
  const read = readScenario(changed, run.base);
  if (!read.ok) return { ok: false, message: `lab: ${inWords(read.issues)}` };
  const json = Number.isNaN(run.seed) || read.scenario.seed === run.seed ? changed : patched(changed, { seed: run.seed });
  return { ok: true, value: { base: run.base, start, json, hidden: run.mystery !== undefined } };
}

export function savedOf({ base, start, json, hidden }: Lab): SavedRun {
  const seed = valueAt(json, 'seed');
  return { base, differences: differences(start, json), seed: typeof seed === 'number' ? seed : 1, log: [], ...(hidden ? { mystery: {} } : {}) };
}
