import { batch, effect, untracked } from '@preact/signals-core';
import { withoutDryings } from '../../sim/attribution/index.ts';
import { type Given, healthyTwin } from '../../sim/faults/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import type { ModelThread } from './threads/model-thread.ts';
import type { Moment } from './threads/planner.ts';
import { derived, tracked } from './tracked.ts';
import { deliveredBy, type Plan, timeAt } from '../../sim/history/index.ts';
import type { Session } from './session.ts';

/** Volumes that differ by less are the same, mL: a hundredth of a drop. */
const SAME_ML = 5e-4;
/** A twin that is still on its way to the moment of the run is looked at from this near, mL: bands have hardly moved. */
const NEAR_ML = 0.5;

/** What a twin costs, ms of real time: the last whole run, and the last look at a moment. */
export interface TwinCost {
  readonly plan_ms: number;
  readonly moment_ms: number;
}

/** A twin that belongs to the run on the page. */
export interface TwinRan {
  readonly scenario: Scenario;
  readonly plan: Plan;
}

/** The same at the delivered volume of the run. */
export interface TwinSeen extends TwinRan {
  readonly moment: Moment;
}

/** What the twin is to run. */
interface Asked extends Given {
  readonly bed: string;
  readonly key: string;
}

/**
 * The same run on a healthy bed that is kept wet, in its own thread. While it is started it follows the session: it is computed again when
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
  /** What the thread has planned, and the bed that is open in it. */
  private planned = '';
  private opened = '';
  /** What `plan` is the plan of; it outlives the thread. */
  @tracked private held = '';
  /** Where the run stood when `moment` was asked for, and the run that this was: with another severity the same minute is another volume. */
  @tracked private shown = Number.NaN;
  @tracked private beside: Plan | undefined;
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

  /** The twin of the run as it is now; undefined while it is being computed. */
  @derived get ran(): TwinRan | undefined {
    const { scenario, plan } = this;
    return scenario && plan && this.held === this.given?.key ? { scenario, plan } : undefined;
  }

  /** The same where the run stands; undefined while that is being computed. A run that plays has its twin close behind it. */
  @derived get seen(): TwinSeen | undefined {
    const { ran, moment } = this;
    const { store } = this.session;
    if (!ran || !moment) return undefined;
    const arrived = this.beside === store.plan && (store.playing || this.shown === store.now);
    const near = Math.abs(moment.delivered_mL - (store.moment?.delivered_mL ?? Number.NaN)) < NEAR_ML;
    return arrived || near ? { ...ran, moment } : undefined;
  }

  start(): void {
    if (this.thread) return;
    this.thread = this.makeThread();
    this.unfollow = effect(() => this.follow(this.given, this.session.store.now, this.session.store.plan));
  }

  /** Ends the thread; the last plan and moment stay to be looked at. */
  stop(): void {
    this.unfollow();
    this.thread?.close();
    this.thread = undefined;
    this.planned = this.opened = '';
    this.catching = false;
  }

  /** Called with what the twin has to show, so that it follows each of them. */
  private follow(_given: Asked | undefined, _now: number, _plan: Plan | undefined): void {
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
    const { now, plan } = this.session.store;
    if (given.key !== this.planned) await this.planAnew(thread, given);
    else if (now !== this.shown || plan !== this.beside) await this.show(thread, now, plan);
    else return false;
    return true;
  }

  private async planAnew(thread: ModelThread, { scenario, log, bed, key }: Asked): Promise<void> {
    const from = performance.now();
    const repeated = await (bed === this.opened ? thread.plan(log) : thread.open(scenario, log));
    // A bed that was let run dry is spoilt by the log itself: the twin's is kept wet.
    const wet = withoutDryings(scenario, repeated);
    const plan = wet ? await thread.plan(wet) : repeated;
    if (this.thread !== thread) return;
    batch(() => {
      if (key !== this.held) {
        this.moment = undefined;
        this.shown = Number.NaN;
      }
      this.scenario = scenario;
      this.plan = plan;
      this.held = key;
      this.cost = { ...this.cost, plan_ms: performance.now() - from };
    });
    this.planned = key;
    this.opened = bed;
  }

  private async show(thread: ModelThread, now: number, beside: Plan | undefined): Promise<void> {
    const from = performance.now();
    const moment = await thread.moment(this.timeFor(now, beside));
    if (this.thread !== thread) return;
    batch(() => {
      this.moment = moment;
      this.shown = now;
      this.beside = beside;
      this.cost = { ...this.cost, moment_ms: performance.now() - from };
    });
  }

  /** Model time at which the twin has delivered what the run has; the same time while both have, such as when nothing flows. */
  private timeFor(now: number, ours: Plan | undefined): number {
    const { plan } = this;
    if (!plan || !ours) return now;
    const delivered_mL = deliveredBy(ours, now);
    return Math.abs(deliveredBy(plan, now) - delivered_mL) < SAME_ML ? now : timeAt(plan, delivered_mL);
  }

  /** The twin's scenario and log. Not of a run that is still being opened: its scenario with the log of the run before belongs to neither. */
  @derived private get given(): Asked | undefined {
    const { written, shownAs, store } = this.session;
    if (!shownAs || shownAs !== written || !store.plan) return undefined;
    const { scenario, log } = healthyTwin(shownAs, store.log);
    const bed = JSON.stringify(scenario);
    return { scenario, log, bed, key: bed + JSON.stringify(log) };
  }
}
