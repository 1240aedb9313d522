import type { ColumnTimes } from '../../sim/class/index.ts';
import { imposed } from '../../sim/faults/index.ts';
import { columnTimes } from '../../sim/lab/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import type { ModelThread } from '../store/threads/model-thread.ts';
import { tracked } from '../store/tracked.ts';

/** How long the column takes by a scenario's own procedure, worked out in a thread of its own. */
export class ProcedureTimes {
  /** Undefined while they are worked out, and where the procedure lacks a phase. */
  @tracked times: ColumnTimes | undefined;
  @tracked working = false;
  private readonly makeThread: () => ModelThread;
  private thread: ModelThread | undefined;
  private wanted: Scenario | undefined;

  constructor(makeThread: () => ModelThread) {
    this.makeThread = makeThread;
  }

  /** Works them out, unless that is done or being done. */
  show(asked: Scenario): void {
    if (asked === this.wanted) return;
    this.wanted = asked;
    this.working = true;
    void this.work(asked);
  }

  close(): void {
    this.thread?.close();
    this.thread = undefined;
    // What was not finished is begun again when it is wanted again.
    if (this.working) this.wanted = undefined;
  }

  private async work(asked: Scenario): Promise<void> {
    const scenario = imposed(asked);
    this.thread ??= this.makeThread();
    const times = await this.thread.open(scenario, scenario.procedure).then(
      (plan) => columnTimes(scenario, plan),
      () => undefined,
    );
    if (asked !== this.wanted) return;
    this.times = times;
    this.working = false;
  }
}
