import type { Log, Scenario, Until } from '../../../sim/terms/types.ts';
import type { Reply, Request } from './column-worker.ts';
import type { Moment } from './planner.ts';
import type { Plan } from '../../../sim/history/index.ts';

/** What the store needs of the model: in the page a worker behind messages, in tests a planner called directly. */
export interface ModelThread {
  open(scenario: Scenario, log: Log): Promise<Plan>;
  plan(log: Log): Promise<Plan>;
  moment(time_min: number): Promise<Moment>;
  timeOf(time_min: number, until: Until): Promise<number>;
  close(): void;
}

type Unsent<T> = T extends { readonly call: number } ? Omit<T, 'call'> : never;

/** The model in a Web Worker. Answers come in the order of the questions. */
export function workerThread(): ModelThread {
  const worker = new Worker(new URL('./column-worker.ts', import.meta.url), { type: 'module' });
  const waiting = new Map<number, { resolve: (value: never) => void; reject: (reason: Error) => void }>();
  let calls = 0;
  worker.onmessage = (event: MessageEvent<Reply>) => {
    const reply = event.data;
    const call = waiting.get(reply.call);
    waiting.delete(reply.call);
    // Each question below names the type of its answer; the worker answers by the same table.
    if (reply.ok) call?.resolve(reply.value as never);
    else call?.reject(new Error(reply.message));
  };
  worker.onerror = (event) => {
    for (const call of waiting.values()) call.reject(new Error(event.message));
    waiting.clear();
  };
  const ask = <Answer>(request: Unsent<Request>): Promise<Answer> => {
    calls += 1;
    const call = calls;
    return new Promise((resolve, reject) => {
      waiting.set(call, { resolve: resolve as (value: never) => void, reject });
      worker.postMessage({ ...request, call });
    });
  };
  return {
    open: (scenario, log) => ask({ do: 'open', scenario, log }),
    plan: (log) => ask({ do: 'plan', log }),
    moment: (time_min) => ask({ do: 'moment', time_min }),
    timeOf: (time_min, until) => ask({ do: 'timeOf', time_min, until }),
    close: () => worker.terminate(),
  };
}
