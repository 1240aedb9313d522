import { type Given, imposed } from '../../sim/faults/imposed.ts';
import { readScenario } from '../../sim/input/scenario.ts';
import type { Action, Fault, Log, Scenario } from '../../sim/terms/types.ts';
import { isRecord } from '../../sim/input/reading.ts';
import type { Json } from './keep/saved.ts';

// The healthy twin of a run: the same bed without its faults, and the same log without what was imposed on the way.

/** The scenario as it is written, its faults still in their list; undefined if the JSON is not a scenario. */
export function writtenScenario(json: Json, id: string): Scenario | undefined {
  const read = readScenario(json, id);
  return read.ok ? read.scenario : undefined;
}

/** Faults that are in force from the start, as the JSON of a scenario lists them. */
export function faultsOf(json: Json): readonly Fault[] {
  const faults = isRecord(json) ? json['faults'] : undefined;
  // A scenario in use has been read, and so have its faults.
  return Array.isArray(faults) ? (faults as readonly Fault[]) : [];
}

/**
 * The twin of a run. A log that is the careless form of the procedure has the procedure itself as its twin; pours that would
 * dig into the bed go down the wall, or the twin's bed would not stay healthy.
 */
export function healthyTwin(written: Scenario, log: Log): Given {
  const scenario = { ...written, faults: [] };
  const plain = log.filter((action) => action.do !== 'fault');
  const kept = sameLog(plain, imposed(written).procedure) ? written.procedure : plain;
  return { scenario, log: kept.map((action) => (action.do === 'pour' && action.how === 'bed' ? { ...action, how: 'wall' } : action)) };
}

export function sameLog(a: Log, b: Log): boolean {
  return a.length === b.length && a.every((action, i) => sameAction(action, b[i]));
}

function sameAction(a: Action, b: Action): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
