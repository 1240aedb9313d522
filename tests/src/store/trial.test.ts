import { beforeEach, describe, expect, test } from 'vitest';
import type { Plan } from '../../../sim/history/index.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { Trial } from '../../../src/store/run/trial.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { small } from './rig.ts';

// A handle that is dragged over a model that is slow: what it is asked, and what is seen meanwhile.

interface Asked {
  readonly how: 'plan' | 'rough';
  readonly log: Log;
  readonly answer: () => Promise<void>;
}

let asked: Asked[];
let open: number;

const logOf = (volume_mL: number): Log => [{ do: 'pour', liquid: 'acid', volume_mL }];
// Only the log of a plan is looked at here.
const planOf = (log: Log): Plan => ({ log }) as unknown as Plan;

function ask(how: Asked['how']): (log: Log) => Promise<Plan> {
  return (log) => {
    open += 1;
    expect(open, 'questions under way').toBe(1);
    return new Promise((resolve) => {
      const answer = async () => {
        open -= 1;
        resolve(planOf(log));
        await new Promise((go) => setTimeout(go));
      };
      asked.push({ how, log, answer });
    });
  };
}

const model = { plan: ask('plan'), rough: ask('rough') };

beforeEach(() => {
  asked = [];
  open = 0;
});

describe('a handle dragged over a slow model', () => {
  test('asks one question at a time, and after the last move at most two: a rough answer, then the exact one', async () => {
    const trial = new Trial();
    for (let volume = 1; volume <= 40; volume++) if (trial.want(logOf(volume))) void trial.work(model);
    expect(asked.map(({ how, log }) => [how, log])).toEqual([['rough', logOf(1)]]);
    await asked[0].answer();
    expect([trial.plan?.log, trial.isRough]).toEqual([logOf(1), true]);
    await asked[1].answer();
    expect([trial.plan?.log, trial.isRough]).toEqual([logOf(40), true]);
    await asked[2].answer();
    expect([trial.plan?.log, trial.isRough]).toEqual([logOf(40), false]);
    expect(asked.slice(1).map(({ how, log }) => [how, log])).toEqual([
      ['rough', logOf(40)],
      ['plan', logOf(40)],
    ]);
    expect(trial.isWorking).toBe(false);
  });

  test('shows nothing that comes after it was let go, and asks nothing more', async () => {
    const trial = new Trial();
    trial.want(logOf(1));
    void trial.work(model);
    trial.end();
    await asked[0].answer();
    expect([trial.plan, trial.isWorking, asked.length]).toEqual([undefined, false, 1]);
  });
});

test('the rough answer has the same log, one lane, and leaves the exact one as it is', () => {
  const scenario = small();
  const [one, other] = [new Planner(scenario), new Planner(scenario)];
  const rough = one.rough(scenario.procedure);
  expect(rough.log).toEqual(scenario.procedure);
  expect(rough.results).toEqual(new Planner({ ...scenario, values: { ...scenario.values, 'bed.lanes': 1 } }).plan(scenario.procedure).results);
  expect(one.plan(scenario.procedure)).toEqual(other.plan(scenario.procedure));
});
