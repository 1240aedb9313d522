import { batch } from '@preact/signals-core';
import { imposed } from '../../../sim/faults/index.ts';
import { deliveredAtEnd, type Plan, progressOf, timeAt } from '../../../sim/history/index.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import type { ModelThread } from '../../store/threads/model-thread.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { tracked } from '../../store/tracked.ts';

/** Pause after the last change before the model is run, ms, so that it is not run for every digit that is typed. A choice. */
const QUIET_MS = 300;

/** Runs the procedure of a lab on the first column that the bench would get, in its own thread. */
export class LabRun {
  /** The scenario that plan and moment belong to. */
  @tracked scenario: Scenario | undefined;
  @tracked plan: Plan | undefined;
  @tracked moment: Moment | undefined;
  @tracked working = false;
  @tracked failure = '';
  private readonly makeThread: () => ModelThread;
  private thread: ModelThread | undefined;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private wanted: Scenario | undefined;
  /** Chosen by the reader; undefined for the moment at which the weaker eluent begins. */
  private at_mL: number | undefined;
  private looking = false;

  constructor(makeThread: () => ModelThread) {
    this.makeThread = makeThread;
  }

  /** Runs the scenario, unless it is already shown or running. */
  show(scenario: Scenario): void {
    if (scenario === this.wanted) return;
    this.wanted = scenario;
    this.working = true;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.work(scenario), QUIET_MS);
  }

  /** Shows the column at a delivered volume; undefined for the moment at which the weaker eluent begins. */
  async look(at_mL: number | undefined): Promise<void> {
    this.at_mL = at_mL;
    const { scenario, plan, thread } = this;
    if (this.looking || this.working || !scenario || !plan || !thread) return;
    this.looking = true;
    try {
      const moment = await thread.moment(this.timeIn(scenario, plan));
      if (plan === this.plan) this.moment = moment;
    } catch {
      // Another scenario was opened meanwhile; its moment comes with it.
    }
    this.looking = false;
    if (at_mL !== this.at_mL) await this.look(this.at_mL);
  }

  close(): void {
    clearTimeout(this.timer);
    this.wanted = undefined;
    this.thread?.close();
    this.thread = undefined;
  }

  private async work(asked: Scenario): Promise<void> {
    const scenario = imposed(asked);
    this.thread ??= this.makeThread();
    const { thread } = this;
    try {
      const plan = await thread.open(scenario, scenario.procedure);
      const moment = await thread.moment(this.timeIn(scenario, plan));
      if (asked !== this.wanted) return;
      batch(() => {
        this.scenario = scenario;
        this.plan = plan;
        this.moment = moment;
        this.working = false;
        this.failure = '';
      });
    } catch (error) {
      // A run that a later change has replaced reports nothing.
      if (asked !== this.wanted) return;
      batch(() => {
        this.working = false;
        this.failure = error instanceof Error ? error.message : String(error);
      });
    }
  }

  private timeIn(scenario: Scenario, plan: Plan): number {
    const begun = progressOf(scenario, plan.events).eluent_mL;
    const end = deliveredAtEnd(plan);
    return timeAt(plan, Math.min(this.at_mL ?? begun ?? end, end));
  }
}
