import type { Log } from '../../../sim/terms/types.ts';
import { FIRST_SCENARIO, scenarioJson } from '../shipped/catalog.ts';
import { differences, patched } from './difference.ts';
import type { Json, SavedRun } from './saved.ts';

export const HIDDEN_TITLE = 'Something may be wrong with this column';

/**
 * The run to hand to a learner: scenario and faults as they are, under a title that does not name the fault. It is kept as a change
 * of the first scenario, since the id of a demonstration would name the fault.
 */
export async function hiddenRun(json: Json, seed: number, log: Log): Promise<SavedRun> {
  const shipped = (await scenarioJson(FIRST_SCENARIO)) ?? {};
  const veiled = patched(json, {
    title: HIDDEN_TITLE,
    purpose: 'Run the column, or watch it run, and say what is wrong with it, if anything. Every number is invented.',
    notice: ['How fast does it flow?', 'Are the bands level on all sides, thin, and where they should be?', 'When does colour leave, and does it tail?'],
    sources: [],
  });
  return { base: FIRST_SCENARIO, differences: differences(shipped, veiled), seed, log, now_min: 0, mystery: {} };
}
