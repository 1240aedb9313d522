import type { Log, Scenario } from '../../sim/terms/types.ts';
import type { Moment } from '../store/threads/planner.ts';
import { isSample, isWeaker, progressOf } from '../../sim/history/index.ts';

/**
 * The log as it would go on by the scenario's procedure, so that windows are known before the run gets there: after what is done and
 * after what one press still has ahead. A log that ends with the clamp shut is whole. Undefined before the sample is on, or where the
 * procedure knows no weaker eluent.
 */
export function logAhead(scenario: Scenario, log: Log, taken: Log, moment: Moment): Log | undefined {
  if (log.length > taken.length && isWhole(log)) return log;
  const eluent = eluentEntry(scenario);
  const { load_mL } = progressOf(scenario, moment.events);
  if (eluent === undefined || load_mL === undefined) return log.length > taken.length ? log : undefined;
  const open: Log = isOpenAfter(log, moment) ? [] : [{ do: 'clamp', open_percent: 100 }];
  const poured = log.filter((action) => action.do === 'pour' && action.liquid === liquidAt(scenario, eluent)).length;
  const rest =
    poured === 0 ? scenario.procedure.slice(eluent) : afterPours(scenario.procedure.slice(eluent), poured).filter(({ do: kind }) => kind !== 'receiver');
  return [...log, ...open, { do: 'wait', until: { liquid_mm: 1 } }, ...rest];
}

function isWhole(log: Log): boolean {
  const last = log.at(-1);
  return last?.do === 'clamp' && last.open_percent === 0;
}

function isOpenAfter(log: Log, { clampOpen, entry }: Moment): boolean {
  const ahead = log.slice(entry).findLast((action) => action.do === 'clamp');
  return ahead?.do === 'clamp' ? ahead.open_percent > 0 : clampOpen > 0;
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
