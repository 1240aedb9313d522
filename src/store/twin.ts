import { batch, effect, untracked } from '@preact/signals-core';
import { type Given, healthyTwin } from '../../sim/faults/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import type { ModelThread } from './threads/model-thread.ts';
import type { Moment } from './threads/planner.ts';
import { derived, tracked } from './tracked.ts';
import { deliveredBy, type Plan, timeAt } from '../../sim/history/index.ts';
import type { Session } from './session.ts';

/** Volumes that differ by less are the same, mL: a hundredth of a drop. */
const SAME_ML = 5e-4;

/** What a twin costs, ms of real time: the last whole run, and the last look at a moment. */
export interface TwinCost {
  readonly plan_ms: number;
  readonly moment_ms: number;
}

/** What the twin is to run. */
interface Asked extends Given {
  readonly bed: string;
  readonly key: string;
}

/**
 * The same run on a healthy bed, in its own thread. While it is started it follows the session: it is computed again when
 * scenario or log change, and is shown at the same delivered volume, since bands move with the volume, not with the clock.
 */
export class Twin {
  @tracked scenario: Scenario | undefined;
  @tracked plan: Plan | undefined;
  @tracked moment: Moment | undefined;
  @tracked failure = '';
  @tracked cost: TwinCost = { plan_ms: 0, moment_ms: 0 };
  private readonly session: Session;
  private readonly makeThread: () => ModelThread;
  private thread: ModelThread | undefined;
  private planned = '';
  private opened = '';
  @tracked private shown = Number.NaN;
  private catching = false;
  private unfollow: () => void = () => undefined;

  constructor(session: Session, makeThread: () => ModelThread) {
    this.session = session;
    this.makeThread = makeThread;
  }

  /** Model time by which the twin is behind the run, min; 0 when both stand at the same moment. */
  get behind_min(): number {
    return Number.isFinite(this.shown) ? this.session.store.now - this.shown : Number.NaN;
  }

  /** Delivered volume that the twin is shown at, mL: that of the run while they stand within one step of each other, as a moment is the end of a step. */
  get delivered_mL(): number | undefined {
    const ours = this.session.store.moment?.delivered_mL;
    const theirs = this.moment?.delivered_mL;
    const step_mL = this.scenario?.values['numerics.frame_mL'] ?? 0;
    return ours !== undefined && theirs !== undefined && Math.abs(ours - theirs) <= step_mL ? ours : theirs;
  }

  start(): void {
    if (this.thread) return;
    this.thread = this.makeThread();
    this.unfollow = effect(() => this.follow(this.given, this.session.store.now));
  }

  /** Ends the thread; the last plan and moment stay to be looked at. */
  stop(): void {
    this.unfollow();
    this.thread?.close();
    this.thread = undefined;
    this.planned = this.opened = '';
    this.shown = Number.NaN;
    this.catching = false;
  }

  /** Called with what the twin has to show, so that it follows both. */
  private follow(_given: Asked | undefined, _now: number): void {
    untracked(() => void this.catchUp());
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
  }

  /** One question to the model; false when the twin has caught up with the run. */
  private async oneStep(thread: ModelThread): Promise<boolean> {
    const { given } = this;
    if (!given) return false;
    if (given.key !== this.planned) await this.planAnew(thread, given);
    else if (this.session.store.now !== this.shown) await this.show(thread, this.session.store.now);
    else return false;
    return true;
  }

  private async planAnew(thread: ModelThread, { scenario, log, bed, key }: Asked): Promise<void> {
    const from = performance.now();
    const plan = await (bed === this.opened ? thread.plan(log) : thread.open(scenario, log));
    if (this.thread !== thread) return;
    batch(() => {
      if (bed !== this.opened) this.moment = undefined;
      this.scenario = scenario;
      this.plan = plan;
      this.shown = Number.NaN;
      this.cost = { ...this.cost, plan_ms: performance.now() - from };
    });
    this.planned = key;
    this.opened = bed;
  }

  private async show(thread: ModelThread, now: number): Promise<void> {
    const from = performance.now();
    const moment = await thread.moment(this.timeFor(now));
    if (this.thread !== thread) return;
    batch(() => {
      this.moment = moment;
      this.shown = now;
      this.cost = { ...this.cost, moment_ms: performance.now() - from };
    });
  }

  /** Model time at which the twin has delivered what the run has; the same time while both have, such as when nothing flows. */
  private timeFor(now: number): number {
    const { plan, session } = this;
    const ours = session.store.plan;
    if (!plan || !ours) return now;
    const delivered_mL = deliveredBy(ours, now);
    return Math.abs(deliveredBy(plan, now) - delivered_mL) < SAME_ML ? now : timeAt(plan, delivered_mL);
  }

  /** The twin's scenario and log. */
  @derived private get given(): Asked | undefined {
    const { written, store } = this.session;
    if (!written || !store.plan) return undefined;
    const { scenario, log } = healthyTwin(written, store.log);
    const bed = JSON.stringify(scenario);
    return { scenario, log, bed, key: bed + JSON.stringify(log) };
  }
}
