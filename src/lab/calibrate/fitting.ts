import { batch } from '@preact/signals-core';
import type { Scenario } from '../../../sim/terms/types.ts';
import { type Alive, Errand } from '../../store/threads/errand.ts';
import type { Thread } from '../../store/threads/thread.ts';
import { tracked } from '../../store/tracked.ts';
import type { FitAnswer, FitReply, FitRequest } from '../fit/fit-worker.ts';
import type { FitProgress } from '../squares/problem.ts';
import type { Measurement } from '../fit/measurements.ts';

/** Tests replace it by a plain object. */
export type FitThread = Thread<FitRequest, FitReply | Alive>;

const NOTHING_YET: FitProgress = { runs: 0, runsMost: 1, chiSquare: Number.POSITIVE_INFINITY };

/** Runs one fit at a time in its own worker and keeps the result of the last. */
export class Fitting {
  @tracked progress: FitProgress | undefined;
  @tracked answer: FitAnswer | undefined;
  @tracked failure = '';
  /** Why it had to be begun once more, in a sentence; empty as long as all goes well. */
  @tracked restarted = '';
  private readonly errand: Errand<FitRequest, FitReply>;

  constructor(makeThread: () => FitThread = fitWorker) {
    this.errand = new Errand(makeThread, {
      heard: (reply) => this.hear(reply),
      again: (why) => this.startOver(why),
      failed: (why) => this.fail(`it stopped twice (${why})`),
    });
  }

  /** Fits the scenario to the readings; a fit that is still running is cancelled. */
  start(scenario: Scenario, measurements: readonly Measurement[]): void {
    batch(() => {
      this.progress = NOTHING_YET;
      this.answer = undefined;
      this.failure = '';
      this.restarted = '';
    });
    this.errand.begin({ scenario, measurements });
  }

  cancel(): void {
    this.errand.end();
    this.progress = undefined;
  }

  private startOver(why: string): void {
    batch(() => {
      this.progress = NOTHING_YET;
      this.restarted = `The fit stopped (${why}) and was started again.`;
    });
  }

  private hear(reply: FitReply): void {
    if (reply.do === 'progress') {
      this.progress = reply.progress;
      return;
    }
    if (reply.do === 'failed') return this.fail(reply.message);
    this.errand.end();
    batch(() => {
      this.progress = undefined;
      this.restarted = '';
      this.answer = reply.answer;
    });
  }

  private fail(message: string): void {
    this.errand.end();
    batch(() => {
      this.progress = undefined;
      this.restarted = '';
      this.failure = message;
    });
  }
}

function fitWorker(): FitThread {
  return new Worker(new URL('../fit/fit-worker.ts', import.meta.url), { type: 'module' });
}
