import { batch } from '@preact/signals-core';
import { imposed } from '../../../sim/faults/index.ts';
import { deliveredAtEnd, type Plan, progressOf, timeAt } from '../../../sim/history/index.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import type { ModelThread } from '../../store/threads/model-thread.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { tracked } from '../../store/tracked.ts';

/** Quiet time after the last change before the model is asked, ms: a number that is being typed is not computed digit by digit. A choice. */
const QUIET_MS = 300;

/** The procedure of a lab as it would run on the column as it is meant, worked out in a thread of its own. */
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
  /** Chosen by the reader; else the moment the weaker eluent is begun. */
  private at_mL: number | undefined;
  private looking = false;

  constructor(makeThread: () => ModelThread) {
    this.makeThread = makeThread;
  }

  /** Works the scenario out, unless that is what is shown or being done. */
  show(scenario: Scenario): void {
    if (scenario === this.wanted) return;
    this.wanted = scenario;
    this.working = true;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.work(scenario), QUIET_MS);
  }

  /** Shows the column when so much has been delivered; undefined for the moment the weaker eluent is begun. */
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
      // What was overtaken by a later change says nothing.
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
