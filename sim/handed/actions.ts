import { fingerprint } from '../math/fingerprint.ts';
import type { Action, Log, Scenario } from '../terms/types.ts';
import { scenarioMark } from './handed-out.ts';

// Whether two runs were made by the same actions, and how far from the written procedure these are.

/** The same for two runs of the same actions at the same times on the same column, and only by chance for others. */
export function actionsMark(scenario: Scenario, log: Log): string {
  const text = JSON.stringify([scenario.seed, log]);
  return [scenarioMark(scenario), fingerprint(text) >>> 0, fingerprint([...text].reverse().join('')) >>> 0, log.length].join(' ');
}

/** Actions that one of two logs has and the other has not, in order and whenever they were taken: those of the longer that find no partner. */
export function actionsApart(log: Log, other: Log): number {
  const [a, b] = [log.map(untimed), other.map(untimed)];
  let row = new Uint16Array(b.length + 1);
  for (const one of a) {
    const next = new Uint16Array(b.length + 1);
    for (let i = 0; i < b.length; i++) next[i + 1] = b[i] === one ? row[i] + 1 : Math.max(row[i + 1], next[i]);
    row = next;
  }
  return Math.max(a.length, b.length) - row[b.length];
}

function untimed(action: Action): string {
  const { at_min: _min, at_mL: _mL, ...rest } = action;
  return JSON.stringify(Object.entries(rest).sort(([a], [b]) => (a < b ? -1 : 1)));
}
