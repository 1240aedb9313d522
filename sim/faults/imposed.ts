import type { Fault, Log, Scenario } from '../terms/types.ts';
import { isBedFault } from '../flaws/impose.ts';
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
  const set = SCENARIO_FAULTS[fault.kind]?.(scenario, severity) ?? scenario;
  const kept = isBedFault(fault.kind) ? { ...set, faults: [...set.faults, fault] } : set;
  const change = severity > 0 || fault.kind === 'no-recondition' ? LOG_FAULTS[fault.kind] : undefined;
  return { scenario: kept, log: change?.(scenario, log, severity, fault) ?? log };
}

/** A scenario with its faults worked into bottles, packing and procedure; only faults of the bed are left in its list. */
export function imposed(scenario: Scenario): Scenario {
  if (scenario.faults.every(({ kind }) => isBedFault(kind))) return scenario;
  const start: Given = { scenario: { ...scenario, faults: [] }, log: scenario.procedure };
  const given = scenario.faults.reduce((so, fault) => withFault(so.scenario, so.log, fault), start);
  return { ...given.scenario, procedure: given.log };
}
