import type { Thread } from '../../store/threads/thread.ts';
import { batch } from '@preact/signals-core';
import type { Scenario } from '../../../sim/terms/types.ts';
import { tracked } from '../../store/tracked.ts';
import type { FitAnswer, FitReply, FitRequest } from '../fit/fit-worker.ts';
import type { FitProgress } from '../fit/least-squares.ts';
import type { Measurement } from '../fit/measurements.ts';

/** Tests replace it by a plain object. */
export type FitThread = Thread<FitRequest, FitReply>;

/** Runs one fit at a time in its own worker and keeps the result of the last. */
export class Fitting {
  @tracked progress: FitProgress | undefined;
  @tracked answer: FitAnswer | undefined;
  @tracked failure = '';
  private readonly makeThread: () => FitThread;
  private thread: FitThread | undefined;

  constructor(makeThread: () => FitThread = fitWorker) {
    this.makeThread = makeThread;
  }

  /** Fits the scenario to the readings; a fit that is still running is cancelled. */
  start(scenario: Scenario, measurements: readonly Measurement[]): void {
    this.end();
    const thread = this.makeThread();
    this.thread = thread;
    batch(() => {
      this.progress = { runs: 0, runsMost: 1, chiSquare: Number.POSITIVE_INFINITY };
      this.answer = undefined;
      this.failure = '';
    });
    thread.onmessage = ({ data }) => this.hear(data);
    thread.onerror = ({ message }) => this.fail(message);
    thread.postMessage({ scenario, measurements });
  }

  cancel(): void {
    this.end();
    this.progress = undefined;
  }

  private hear(reply: FitReply): void {
    if (reply.do === 'progress') {
      this.progress = reply.progress;
      return;
    }
    if (reply.do === 'failed') return this.fail(reply.message);
    this.end();
    batch(() => {
      this.progress = undefined;
      this.answer = reply.answer;
    });
  }

  private fail(message: string): void {
    this.end();
    batch(() => {
      this.progress = undefined;
      this.failure = message || 'the worker ended';
    });
  }

  private end(): void {
    this.thread?.terminate();
    this.thread = undefined;
  }
}

function fitWorker(): FitThread {
  return new Worker(new URL('../fit/fit-worker.ts', import.meta.url), { type: 'module' });
}
