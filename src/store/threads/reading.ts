import { drawn } from '../../../sim/column/index.ts';
import { imposed } from '../../../sim/faults/index.ts';
import { readLog, readScenario } from '../../../sim/input/index.ts';
import type { Issue, Log, Scenario } from '../../../sim/terms/types.ts';

/** A run as the model's thread reads it, or everything that is wrong with it. */
export type RunRead =
  | {
      readonly ok: true;
      /** The scenario as it is written, its faults still in their list. */
      readonly written: Scenario;
      /** The actual column: drawn from its seed, with the faults applied. */
      readonly found: Scenario;
      readonly log: Log;
    }
  | { readonly ok: false; readonly issues: readonly Issue[] };

/** Reads the JSON of a scenario and a log for it. The page leaves this to the thread, which knows every parameter anyway. */
export function readRun(json: unknown, id: string, log: unknown): RunRead {
  const read = readScenario(json, id);
  if (!read.ok) return read;
  const readable = readLog(log, read.scenario);
  if (!readable.ok) return readable;
  return { ok: true, written: read.scenario, found: imposed(drawn(read.scenario)), log: readable.log };
}
