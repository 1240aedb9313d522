import type { Given } from '../../sim/faults/imposed.ts';
import type { Log, Scenario } from '../../sim/terms/types.ts';
import type { ModelThread } from './threads/model-thread.ts';
import { healthyTwin, writtenScenario } from './healthy.ts';
import type { Moment } from './threads/planner.ts';
import type { Plan } from '../../sim/history/plan.ts';
import type { Json } from './keep/saved.ts';
import type { Session } from './session.ts';

/** What a twin costs, ms of real time: the last whole run, and the last look at a moment. */
export interface TwinCost {
  readonly plan_ms: number;
  readonly moment_ms: number;
}

/** What the twin is to run, and for which run it was worked out. */
interface Asked extends Given {
  readonly json: Json;
  readonly ran: Log;
  readonly bed: string;
  readonly key: string;
}

/**
 * The same run on a healthy bed, in a thread of its own. While it is started it follows the session: it is planned anew when
 * scenario or log differ, and shows the same model time. Tells listeners (`change`) when it has caught up a little.
 */
export class Twin extends EventTarget {
  scenario: Scenario | undefined;
  plan: Plan | undefined;
  moment: Moment | undefined;
  failure = '';
  cost: TwinCost = { plan_ms: 0, moment_ms: 0 };
  private readonly session: Session;
  private readonly makeThread: () => ModelThread;
  private thread: ModelThread | undefined;
  private asked: Asked | undefined;
  private planned = '';
  private opened = '';
  private shown = Number.NaN;
  private catching = false;
  private readonly follow = (): void => void this.catchUp();

  constructor(session: Session, makeThread: () => ModelThread) {
    super();
    this.session = session;
    this.makeThread = makeThread;
  }

  /** Model time by which the twin is behind the run, min; 0 when both stand at the same moment. */
  get behind_min(): number {
    return Number.isFinite(this.shown) ? this.session.store.now - this.shown : Number.NaN;
  }

  start(): void {
    if (this.thread) return;
    this.thread = this.makeThread();
    this.session.store.addEventListener('change', this.follow);
    void this.catchUp();
  }

  /** Ends the thread; the last plan and moment stay to be looked at. */
  stop(): void {
    this.session.store.removeEventListener('change', this.follow);
    this.thread?.close();
    this.thread = undefined;
    this.planned = this.opened = '';
    this.shown = Number.NaN;
    this.catching = false;
  }

  /** Answers come one at a time: while the model is at work, only the newest state of the run waits. */
  private async catchUp(): Promise<void> {
    const { thread } = this;
    if (!thread || this.catching) return;
    this.catching = true;
    try {
      while (this.thread === thread && (await this.oneStep(thread)));
      this.failure = '';
    } catch (error) {
      this.failure = error instanceof Error ? error.message : String(error);
    }
    if (this.thread !== thread) return;
    this.catching = false;
    this.dispatchEvent(new Event('change'));
  }

  /** One question to the model; false when the twin is where the run is. */
  private async oneStep(thread: ModelThread): Promise<boolean> {
    const given = this.given();
    if (!given) return false;
    if (given.key !== this.planned) await this.planAnew(thread, given);
    else if (this.session.store.now !== this.shown) await this.show(thread, this.session.store.now);
    else return false;
    this.dispatchEvent(new Event('change'));
    return true;
  }

  private async planAnew(thread: ModelThread, { scenario, log, bed, key }: Asked): Promise<void> {
    const from = performance.now();
    const plan = await (bed === this.opened ? thread.plan(log) : thread.open(scenario, log));
    if (this.thread !== thread) return;
    if (bed !== this.opened) this.moment = undefined;
    this.scenario = scenario;
    this.plan = plan;
    this.planned = key;
    this.opened = bed;
    this.shown = Number.NaN;
    this.cost = { ...this.cost, plan_ms: performance.now() - from };
  }

  private async show(thread: ModelThread, now: number): Promise<void> {
    const from = performance.now();
    const moment = await thread.moment(now);
    if (this.thread !== thread) return;
    this.moment = moment;
    this.shown = now;
    this.cost = { ...this.cost, moment_ms: performance.now() - from };
  }

  /** The twin's scenario and log; worked out anew only when the run's have changed. */
  private given(): Asked | undefined {
    const { json, base, store } = this.session;
    if (!store.plan) return undefined;
    if (this.asked?.json === json && this.asked.ran === store.log) return this.asked;
    const written = writtenScenario(json, base);
    if (!written) return undefined;
    const { scenario, log } = healthyTwin(written, store.log);
    const bed = JSON.stringify(scenario);
    this.asked = { json, ran: store.log, scenario, log, bed, key: bed + JSON.stringify(log) };
    return this.asked;
  }
}
