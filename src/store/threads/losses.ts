import type { Thread } from './thread.ts';
import type { Attribution } from '../../../sim/attribution/index.ts';
import type { Log, Scenario } from '../../../sim/terms/types.ts';
import { tracked } from '../tracked.ts';
import type { LossReply, LossRequest } from './loss-worker.ts';
import { Watchdog } from './watchdog.ts';

/** In tests an object stands in for it. */
export type LossThread = Thread<LossRequest, LossReply>;

/** Where the target of a run went, and why: worked out on demand in a thread of its own, with progress, until it is cancelled. */
export class Losses {
  @tracked attribution: Attribution | undefined;
  @tracked failure = '';
  /** Whole runs done so far; undefined while nothing is being worked out. */
  @tracked runs: number | undefined;
  /** The run it was worked out for. */
  @tracked log: Log | undefined;
  private readonly makeThread: () => LossThread;
  private readonly watchdog = new Watchdog(() => this.lost());
  private asked: { readonly request: LossRequest; readonly again: boolean } | undefined;
  private thread: LossThread | undefined;

  constructor(makeThread: () => LossThread = lossWorker) {
    this.makeThread = makeThread;
  }

  /** `scenario` as it is written, its faults in their list. */
  begin(scenario: Scenario, log: Log): void {
    this.ask({ scenario, log }, false);
  }

  private ask(request: LossRequest, again: boolean): void {
    const { log } = request;
    this.cancel();
    this.asked = { request, again };
    const thread = this.makeThread();
    this.thread = thread;
    this.runs = 0;
    this.failure = '';
    this.attribution = undefined;
    thread.onmessage = ({ data }) => {
      if (this.thread !== thread) return;
      this.watchdog.heard();
      if ('alive' in data) return;
      if ('runs' in data) this.runs = data.runs;
      else {
        if ('attribution' in data) this.attribution = data.attribution;
        else this.failure = data.message;
        this.log = log;
        this.end();
      }
    };
    thread.onerror = (event) => {
      if (this.thread !== thread) return;
      this.failure = event.message;
      this.end();
    };
    thread.postMessage(request);
    this.watchdog.await();
  }

  cancel(): void {
    if (!this.thread) return;
    this.end();
  }

  /** A thread without a sign of life is started again, once. */
  private lost(): void {
    const { asked } = this;
    this.end();
    if (asked && !asked.again) this.ask(asked.request, true);
    else this.failure = 'the working out stopped twice without a word; begin it again, or change the run first';
  }

  private end(): void {
    this.watchdog.rest();
    this.thread?.terminate();
    this.thread = undefined;
    this.runs = undefined;
  }
}

function lossWorker(): LossThread {
  return new Worker(new URL('./loss-worker.ts', import.meta.url), { type: 'module' });
}
