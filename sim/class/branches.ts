// Several procedures on one column: the common beginning of their logs is computed once.
import type { Plan } from '../history/index.ts';
import { advanceAlive, type Checkpoint, checkpointOf, recordLast, restoreTo, runOf } from '../run/index.ts';
import type { Action, Log, Scenario } from '../terms/types.ts';
import { planOf } from './whole.ts';

/** The state after a number of actions of the previous log. */
interface Fork {
  readonly taken: number;
  readonly point: Checkpoint;
}

/**
 * Computes one log after another on the column of a scenario, bit for bit as each would be alone. A plan shares its
 * record with the next one: read it before asking for another. `alive` is called meanwhile.
 */
export function branchesOf(scenario: Scenario, alive: () => void = () => undefined): (log: Log) => Plan {
  const run = runOf(scenario, []);
  let forks: Fork[] = [{ taken: 0, point: checkpointOf(run) }];
  let before: Log = [];
  return (log) => {
    const common = commonStart(before, log);
    forks = forks.filter(({ taken }) => taken <= common);
    const { taken: start, point } = forks[forks.length - 1];
    restoreTo(run, point);
    run.log.length = 0;
    run.log.push(...log.slice(0, start));
    for (let next = start; next < log.length; next++) {
      run.log.push(log[next]);
      if (log[next].do !== 'wait' && !(next + 1 < log.length && log[next + 1].do === 'pour')) continue;
      advanceAlive(run, { endOfLog: true }, alive);
      forks.push({ taken: next + 1, point: checkpointOf(run) });
    }
    advanceAlive(run, { endOfLog: true }, alive);
    recordLast(run);
    before = log;
    return planOf(run);
  };
}

function commonStart(one: Log, other: Log): number {
  const differs = one.findIndex((action, i) => !same(action, other[i]));
  return differs < 0 ? one.length : differs;
}

function same(one: Action, other: Action | undefined): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}
