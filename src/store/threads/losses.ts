import { batch } from '@preact/signals-core';
import type { Attribution } from '../../../sim/attribution/index.ts';
import type { Log, Scenario } from '../../../sim/terms/types.ts';
import { tracked } from '../tracked.ts';
import { type Alive, Errand } from './errand.ts';
import type { LossReply, LossRequest } from './loss-worker.ts';
import type { Thread } from './thread.ts';

/** Tests replace it by a plain object. */
export type LossThread = Thread<LossRequest, LossReply | Alive>;

/** Where the target of a run went, and why: computed on demand in its own thread, with progress, and can be cancelled. */
export class Losses {
  @tracked attribution: Attribution | undefined;
  @tracked failure = '';
  /** Why it had to be begun once more, in a sentence; empty as long as all goes well. */
  @tracked restarted = '';
  /** Whole runs done so far; undefined while nothing is being computed. */
  @tracked runs: number | undefined;
  /** The run it was computed for. */
  @tracked log: Log | undefined;
  private readonly errand: Errand<LossRequest, LossReply>;
  private asked: LossRequest | undefined;

  constructor(makeThread: () => LossThread = lossWorker) {
    this.errand = new Errand(makeThread, {
      heard: (reply) => this.hear(reply),
      again: (why) => this.startOver(why),
      failed: (why) => this.end({ message: `the working out stopped twice (${why}); begin it again, or change the run first` }),
    });
  }

  /** `scenario` as it is written, its faults in their list. */
  begin(scenario: Scenario, log: Log): void {
    const request = { scenario, log };
    batch(() => {
      this.asked = request;
      this.runs = 0;
      this.failure = '';
      this.restarted = '';
      this.attribution = undefined;
    });
    this.errand.begin(request);
  }

  cancel(): void {
    this.errand.end();
    this.runs = undefined;
  }

  private hear(reply: LossReply): void {
    if ('runs' in reply) this.runs = reply.runs;
    else this.end(reply);
  }

  private startOver(why: string): void {
    this.runs = 0;
    this.restarted = `The working out stopped (${why}) and was started again.`;
  }

  private end(reply: Exclude<LossReply, { readonly runs: number }>): void {
    this.errand.end();
    batch(() => {
      if ('attribution' in reply) this.attribution = reply.attribution;
      else this.failure = reply.message;
      this.log = this.asked?.log;
      this.restarted = '';
      this.runs = undefined;
    });
  }
}

function lossWorker(): LossThread {
  return new Worker(new URL('./loss-worker.ts', import.meta.url), { type: 'module' });
}
