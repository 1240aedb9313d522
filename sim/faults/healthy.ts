import { drawn } from '../column/index.ts';
import type { Action, Log, Scenario } from '../terms/types.ts';
import { type Given, imposed } from './imposed.ts';

// The healthy twin of a run: the same bed without its faults, and the same log without what was imposed on the way.

/**
 * The twin of a run. A log that is the careless form of the procedure has the procedure itself as its twin; pours that would
 * dig into the bed go down the wall, or the twin's bed would not stay healthy.
 */
export function healthyTwin(written: Scenario, log: Log): Given {
  const scenario = { ...drawn(written), faults: [] };
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
