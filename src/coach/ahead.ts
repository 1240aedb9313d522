import type { Log, Scenario } from '../../sim/terms/types.ts';
import type { Moment } from '../store/threads/planner.ts';
import { isSample, isWeaker, progressOf } from '../../sim/history/index.ts';

/**
 * The log as it would go on from here by the scenario's procedure, so that windows are known before the run gets there.
 * Undefined before the sample is on, or where the procedure knows no weaker eluent.
 */
export function logAhead(scenario: Scenario, log: Log, taken: Log, moment: Moment): Log | undefined {
  const { load_mL, eluent_mL } = progressOf(scenario, moment.events);
  if (log.length > taken.length) return log;
  if (load_mL === undefined) return undefined;
  const eluent = eluentEntry(scenario);
  if (eluent === undefined) return undefined;
  const open: Log = moment.clampOpen > 0 ? [] : [{ do: 'clamp', open_percent: 100 }];
  if (eluent_mL === undefined) return [...taken, ...open, { do: 'wait', until: { liquid_mm: 1 } }, ...scenario.procedure.slice(eluent)];
  const poured = taken.filter((action) => action.do === 'pour' && action.liquid === liquidAt(scenario, eluent)).length;
  return [
    ...taken,
    ...open,
    { do: 'wait', until: { liquid_mm: 1 } },
    ...afterPours(scenario.procedure.slice(eluent), poured).filter((action) => action.do !== 'receiver'),
  ];
}

/** Entry of the procedure at which a weaker eluent is first poured after the sample. */
export function eluentEntry({ procedure, liquids }: Scenario): number | undefined {
  let sample_M: number | undefined;
  const found = procedure.findIndex((action) => {
    const liquid = action.do === 'pour' ? liquids[action.liquid] : undefined;
    if (!liquid) return false;
    if (isSample(liquid)) sample_M = liquid.HCl_M;
    return sample_M !== undefined && isWeaker(liquid, sample_M);
  });
  return found < 0 ? undefined : found;
}

function liquidAt({ procedure }: Scenario, entry: number): string {
  const action = procedure[entry];
  return action?.do === 'pour' ? action.liquid : '';
}

/** What is left of a procedure once so many of its pours are done. */
function afterPours(log: Log, done: number): Log {
  let left = done;
  const from = log.findIndex((action) => action.do === 'pour' && left-- === 0);
  return from < 0 ? log.filter((action) => action.do === 'clamp') : log.slice(from);
}
