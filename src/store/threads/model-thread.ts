import type { Thread } from './thread.ts';
import type { Log, Scenario } from '../../../sim/terms/types.ts';
import type { Reply, Request } from './column-worker.ts';
import type { Moment } from './planner.ts';
import type { Plan } from '../../../sim/history/index.ts';
import type { RunRead } from './reading.ts';
import { Watchdog } from './watchdog.ts';

/** What the store needs of the model: in the page a worker behind messages, in tests a planner called directly. */
export interface ModelThread {
  /** Reads a run without opening it. */
  read(json: unknown, id: string, log: unknown): Promise<RunRead>;
  open(scenario: Scenario, log: Log): Promise<Plan>;
  plan(log: Log): Promise<Plan>;
  /** The same along one lane, many times as fast. */
  rough(log: Log): Promise<Plan>;
  moment(time_min: number): Promise<Moment>;
  close(): void;
}

/** What this needs of a worker; tests replace it by a plain object. */
export interface MessageThread extends Thread<Request, Reply> {
  onmessageerror: ((event: MessageEvent) => void) | null;
}

type Unsent<T> = T extends { readonly call: number } ? Omit<T, 'call'> : never;

interface Question {
  readonly request: Request;
  readonly resolve: (value: never) => void;
  readonly reject: (reason: Error) => void;
  /** Asked again of a new thread, after the previous one was lost. */
  again: boolean;
}

/** Number of the question that restores the state in a new thread; its answer is not used. */
const RESTORING = 0;

/**
 * The model in a Web Worker; answers come in the order of the questions. A worker that hangs, ends or leaves out an answer is
 * replaced: the new one opens the scenario with the log, and the question is asked once more. `say` is called.
 */
export class WorkerThread implements ModelThread {
  private readonly say: (text: string) => void;
  private readonly make: () => MessageThread;
  private readonly watchdog = new Watchdog(() => this.lost('gave no sign of life'));
  private readonly waiting = new Map<number, Question>();
  private worker: MessageThread;
  private calls = RESTORING;
  private scenario: Scenario | undefined;
  private log: Log = [];

  constructor(say: (text: string) => void, make: () => MessageThread = columnWorker) {
    this.say = say;
    this.make = make;
    this.worker = this.begin();
  }

  read(json: unknown, id: string, log: unknown): Promise<RunRead> {
    if (this.waiting.size === 0) return this.ask({ do: 'read', json, id, log });
    // Opening another run does not wait for the one that is being computed.
    const beside = new WorkerThread(this.say, this.make);
    return beside.read(json, id, log).finally(() => beside.close());
  }

  open(scenario: Scenario, log: Log): Promise<Plan> {
    // What the worker is computing is no longer needed.
    if (this.waiting.size > 0) {
      this.end('another run was opened meanwhile');
      this.worker = this.begin();
    }
    this.scenario = scenario;
    this.log = log;
    return this.ask({ do: 'open', scenario, log });
  }

  async plan(log: Log): Promise<Plan> {
    const plan = await this.ask<Plan>({ do: 'plan', log });
    this.log = log;
    return plan;
  }

  rough(log: Log): Promise<Plan> {
    return this.ask({ do: 'rough', log });
  }

  moment(time_min: number): Promise<Moment> {
    return this.ask({ do: 'moment', time_min });
  }

  close(): void {
    this.end('the page is closed');
  }

  private ask<Answer>(request: Unsent<Request>): Promise<Answer> {
    this.calls += 1;
    const numbered: Request = { ...request, call: this.calls };
    return new Promise((resolve, reject) => {
      this.waiting.set(numbered.call, { request: numbered, resolve: resolve as (value: never) => void, reject, again: false });
      this.worker.postMessage(numbered);
      this.watchdog.await();
    });
  }

  private begin(): MessageThread {
    const worker = this.make();
    worker.onmessage = ({ data }) => {
      if (worker === this.worker) this.hear(data);
    };
    worker.onerror = (event) => {
      if (worker === this.worker) this.lost(event.message);
    };
    worker.onmessageerror = () => {
      if (worker === this.worker) this.lost('an answer could not be read');
    };
    return worker;
  }

  private hear(reply: Reply): void {
    this.watchdog.heard();
    if ('alive' in reply) return;
    const question = this.waiting.get(reply.call);
    this.waiting.delete(reply.call);
    // Each question names the type of its answer; the worker answers by the same table.
    if (reply.ok) question?.resolve(reply.value as never);
    else question?.reject(new Error(reply.message));
    if (this.waiting.size === 0) this.watchdog.rest();
    else if (Math.min(...this.waiting.keys()) < reply.call) this.lost('left out an answer');
  }

  /** Starts a new worker from the log and repeats the questions without an answer; a question that was asked twice fails. */
  private lost(why: string): void {
    this.worker.terminate();
    this.watchdog.rest();
    this.worker = this.begin();
    const [first, ...rest] = this.waiting.values();
    if (first?.again) {
      this.waiting.delete(first.request.call);
      first.reject(new Error(`model: it stopped twice on the same question (${why})`));
    }
    const asked = first?.again ? rest : [...this.waiting.values()];
    if (this.scenario && asked[0]?.request.do !== 'open') {
      this.worker.postMessage({ call: RESTORING, do: 'open', scenario: this.scenario, log: this.log });
    }
    for (const question of asked) {
      question.again = true;
      this.worker.postMessage(question.request);
    }
    if (asked.length > 0) this.watchdog.await();
    this.say(`The model stopped (${why}) and was restarted; the run continues from its log.`);
  }

  private end(why: string): void {
    this.watchdog.rest();
    this.worker.terminate();
    for (const { reject } of this.waiting.values()) reject(new Error(`model: ${why}`));
    this.waiting.clear();
  }
}

/** The model in its own thread. `say` is called when it had to be restarted. */
export function workerThread(say: (text: string) => void = () => undefined): ModelThread {
  return new WorkerThread(say);
}

function columnWorker(): MessageThread {
  return new Worker(new URL('./column-worker.ts', import.meta.url), { type: 'module' });
}
