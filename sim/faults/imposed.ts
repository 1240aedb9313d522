import { FIELDS } from '../terms/fields.ts';
import type { Fault, FieldPath, Log, Scenario } from '../terms/types.ts';
import { isBedFault } from '../flaws/index.ts';
import { LOG_FAULTS } from './log-faults.ts';
import { SCENARIO_FAULTS } from './scenario-faults.ts';

/** A scenario and the log that goes with it. */
export interface Given {
  readonly scenario: Scenario;
  readonly log: Log;
}

/** The same with one more fault from the start: in the bottles and the packing, in the hands, or left to the run to impose on the bed. */
export function withFault(scenario: Scenario, log: Log, fault: Fault): Given {
  const severity = fault.severity ?? 1;
  const set = inRange(SCENARIO_FAULTS[fault.kind]?.(scenario, severity) ?? scenario);
  const kept = isBedFault(fault.kind) ? { ...set, faults: [...set.faults, fault] } : set;
  const change = severity > 0 || fault.kind === 'no-recondition' ? LOG_FAULTS[fault.kind] : undefined;
  return { scenario: kept, log: change?.(scenario, log, severity, fault) ?? log };
}

/** A fault goes as far as the range of what it changes, no further. */
function inRange(scenario: Scenario): Scenario {
  const entries = Object.entries(scenario.values).map(([path, value]) => {
    const { min, max } = FIELDS[path as FieldPath];
    return [path, Math.min(max, Math.max(min, value))] as const;
  });
  return { ...scenario, values: { ...scenario.values, ...Object.fromEntries(entries) } };
}

/**
 * Whether a fault is one of the bed as it stands, and so goes with it when the tube is emptied. Faults of the bottles, of the hand and
 * of the resin itself, such as how far it shrinks, are there in the next bed too.
 */
export function goesWithBed({ kind }: Fault): boolean {
  return kind === 'short-bed' || (isBedFault(kind) && kind !== 'swelling');
}

/** The reader refuses a second fault of a kind; a list that no reader has seen is taken as far. */
function firstOfEach(faults: readonly Fault[]): readonly Fault[] {
  return faults.filter((fault, i) => faults.findIndex(({ kind }) => kind === fault.kind) === i);
}

/** A scenario with its faults worked into bottles, packing and procedure; only faults of the bed are left in its list. */
export function imposed(scenario: Scenario): Scenario {
  if (scenario.faults.every(({ kind }) => isBedFault(kind))) return scenario;
  const start: Given = { scenario: { ...scenario, faults: [] }, log: scenario.procedure };
  const given = firstOfEach(scenario.faults).reduce((so, fault) => withFault(so.scenario, so.log, fault), start);
  return { ...given.scenario, procedure: given.log };
}
