import type { Plan } from '../../../sim/history/index.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { tracked } from '../tracked.ts';

/** The run of another log while a handle is dragged. Only the newest log waits for the model. */
export class Trial {
  @tracked plan: Plan | undefined;
  private wanted: Log | undefined;
  private working = false;
  /** Number of the drag; a plan that comes after its handle was let go is not shown. */
  private drag = 0;

  /** The model still works on what was wanted. */
  get isWorking(): boolean {
    return this.working;
  }

  /** True if `work` has to be started for it; false if work that goes on will come to it. */
  want(log: Log): boolean {
    this.wanted = log;
    return !this.working;
  }

  async work(plan: (log: Log) => Promise<Plan>): Promise<void> {
    this.working = true;
    try {
      while (this.wanted) {
        const { wanted, drag } = this;
        this.wanted = undefined;
        const answer = await plan(wanted);
        if (drag === this.drag) this.plan = answer;
      }
    } finally {
      this.working = false;
    }
  }

  /** No other log is tried from here on; the one tried last is seen until the run itself has changed. */
  settle(): void {
    this.drag += 1;
    this.wanted = undefined;
  }

  /** Ends it, and shows the run as it is. */
  end(): void {
    this.settle();
    this.plan = undefined;
  }
}
