import { batch } from '@preact/signals-core';
import type { Plan } from '../../../sim/history/index.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { tracked } from '../tracked.ts';

/** Computes the run, exactly or along one lane. */
interface Model {
  plan(log: Log): Promise<Plan>;
  rough(log: Log): Promise<Plan>;
}

/** An exact answer within a frame needs no rough one before it, ms. */
const FRAME_MS = 16;

/**
 * The run of another log while a handle is dragged: first along one lane and marked as rough, then, once no newer log is wanted,
 * exactly. One question at a time; only the newest log waits for the model.
 */
export class Trial {
  @tracked plan: Plan | undefined;
  /** The plan is that of one lane. */
  @tracked isRough = false;
  private wanted: Log | undefined;
  private working = false;
  /** Number of the drag; a plan that comes after its handle was let go is not shown. */
  private drag = 0;
  /** Real time the last exact answer took, ms. */
  private took_ms = Number.POSITIVE_INFINITY;

  /** The model still works on what was wanted. */
  get isWorking(): boolean {
    return this.working;
  }

  /** True if `work` has to be started for it; false if the work that is running will reach it. */
  want(log: Log): boolean {
    this.wanted = log;
    return !this.working;
  }

  async work(model: Model): Promise<void> {
    this.working = true;
    try {
      while (this.wanted) {
        const { wanted, drag } = this;
        this.wanted = undefined;
        if (this.took_ms > FRAME_MS) this.show(await model.rough(wanted), drag, true);
        if (!this.wanted && drag === this.drag) await this.exactly(model, wanted);
      }
    } finally {
      this.working = false;
    }
  }

  /** Tries no further log; the last one is shown until the run itself has changed. */
  settle(): void {
    this.drag += 1;
    this.wanted = undefined;
  }

  /** Ends it, and shows the run as it is. */
  end(): void {
    this.settle();
    this.plan = undefined;
  }

  private async exactly(model: Model, wanted: Log): Promise<void> {
    const { drag } = this;
    const from = performance.now();
    const plan = await model.plan(wanted);
    this.took_ms = performance.now() - from;
    this.show(plan, drag, false);
  }

  private show(plan: Plan, drag: number, isRough: boolean): void {
    if (drag !== this.drag) return;
    batch(() => {
      this.plan = plan;
      this.isRough = isRough;
    });
  }
}
