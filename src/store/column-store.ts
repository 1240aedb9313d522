import { batch } from '@preact/signals-core';
import type { Action, Issue, Log, Scenario, Until } from '../../sim/terms/types.ts';
import { type Handle, handlesOf, type Plan, type RunEvent } from '../../sim/history/index.ts';
import type { ModelThread } from './threads/model-thread.ts';
import type { Moment } from './threads/planner.ts';
import { ACTIONS_MAX, inWords } from '../../sim/input/index.ts';
import { RUN_MAX_MIN } from '../../sim/terms/limits.ts';
import { derived, tracked } from './tracked.ts';

// The one owner of what the page shows: a scenario, a log, and how far the run has been played.

export const SPEEDS = [1, 5, 20, 60] as const;
/** Model minutes a real second is worth at speed 1. */
const MIN_PER_S = 1 / 60;
/** Longest real time one tick may stand for, s: a tab that slept does not leap ahead. */
const TICK_MAX_S = 1;
const UNDO_MAX = 200;

/** A log and how far it was played. */
interface Place {
  readonly log: Log;
  readonly now: number;
}

/** What a change of the run leads to, shown all at once. */
interface Shown extends Place {
  readonly plan: Plan;
  readonly moment: Moment;
}

/**
 * Holds the run. All changes go through its methods; the model answers from its own thread, in the order of the questions,
 * and answers to questions that no longer matter are dropped.
 */
export class ColumnStore {
  @tracked scenario: Scenario | undefined;
  /** The whole run of the present log, past and forecast. */
  @tracked plan: Plan | undefined;
  /** While a handle is dragged: the run as it would be. */
  @tracked preview: Plan | undefined;
  /** The column at the moment shown. */
  @tracked moment: Moment | undefined;
  /** Model time played so far, min. */
  @tracked now = 0;
  /** While the reader looks back: the model time of the present, min. */
  @tracked present: number | undefined;
  @tracked playing = false;
  @tracked speed: number = 20;
  /** Model time at which playing stops by itself, min. */
  @tracked stopAt = Number.POSITIVE_INFINITY;
  /** What the last action was refused for, and which action. */
  @tracked refusal: RunEvent | undefined;
  /** Everything that was refused since this run was opened; a refused action is not in the log. */
  @tracked refusals: readonly RunEvent[] = [];
  @tracked failure = '';
  @tracked private past: readonly Place[] = [];
  @tracked private future: readonly Place[] = [];
  /** Changes of the run that are not done yet. */
  @tracked private changes = 0;
  private readonly thread: ModelThread;
  /** Number of the run opened last; what was asked for another is not shown. */
  private opened = 0;
  /** A tick waits for the model. */
  private ticking = false;
  private trying = false;
  private wanted: Log | undefined;
  /** Number of the preview; one that comes after its handle was let go is not shown. */
  private trial = 0;
  /** What playing is to stop at, where that was asked for. */
  private until: Until | undefined;
  /** Real time not yet played because the model was still answering, s. */
  private owed_s = 0;
  /** Changes of the run wait here for those before them, so that none starts from a log that is about to go. */
  private line: Promise<unknown> = Promise.resolve();

  constructor(thread: ModelThread) {
    this.thread = thread;
  }

  @derived get log(): Log {
    return this.plan?.log ?? [];
  }

  /** The run to be looked at: as it would be while a handle is dragged, else as it is. */
  @derived get shown(): Plan | undefined {
    return this.preview ?? this.plan;
  }

  /** Where eluent and receiver are changed in it. */
  @derived get handles(): readonly Handle[] {
    return this.shown ? handlesOf(this.shown.log, this.shown.events) : [];
  }

  @derived get canUndo(): boolean {
    return this.past.length > 0;
  }

  @derived get canRedo(): boolean {
    return this.future.length > 0;
  }

  @derived get busy(): boolean {
    return this.changes > 0;
  }

  /** Number of actions taken up to the moment shown. */
  @derived get entry(): number {
    return this.moment?.entry ?? 0;
  }

  /** Actions taken up to the moment shown. */
  @derived get taken(): Log {
    return this.log.slice(0, this.entry);
  }

  /** Opens a scenario with a log, played up to `now`. Until the model has answered, the run before it stays; `along` changes with it. */
  open(scenario: Scenario, log: Log = [], now = 0, along: () => void = () => undefined): Promise<void> {
    this.opened += 1;
    this.playing = false;
    this.line = Promise.resolve();
    this.endTrial();
    return this.change(async () => {
      const [plan, moment] = await this.ask(Promise.all([this.thread.open(scenario, log), this.thread.moment(now)]));
      batch(() => {
        this.scenario = scenario;
        this.refusal = undefined;
        this.refusals = this.past = this.future = [];
        this.stopAt = Number.POSITIVE_INFINITY;
        this.show({ plan, moment, log, now });
        along();
      });
    });
  }

  /** Takes an action at the moment shown; what the log still had ahead is given up. Resolves to the refusal, if any. */
  act(action: Action): Promise<RunEvent | undefined> {
    const { scenario } = this;
    return this.change(async () => (scenario === this.scenario ? this.take(action) : undefined));
  }

  /**
   * Takes actions one after the other from the moment shown, waits among them, and plays to the end of the last: one undo step.
   * If any of them would be refused nothing is done, and that one is given back.
   */
  carryOut(actions: Log): Promise<RunEvent | undefined> {
    const { scenario } = this;
    return this.change(async () => (scenario === this.scenario ? this.takeAll(actions, true) : undefined));
  }

  /** Takes actions without waits at the moment shown: one undo step. */
  actAll(actions: Log): Promise<RunEvent | undefined> {
    const { scenario } = this;
    return this.change(async () => (scenario === this.scenario ? this.takeAll(actions, false) : undefined));
  }

  /** Replaces the log (a dropped handle, a procedure) and shows it at `now`; one undo step. */
  replace(log: Log, now: number): Promise<void> {
    return this.change(() => this.put(log, now, this.place()));
  }

  /** Shows the run of another log while a handle moves. Only the newest log waits for the model. */
  async tryOut(log: Log): Promise<void> {
    this.wanted = log;
    if (this.trying) return;
    this.trying = true;
    await this.guard(async () => {
      while (this.wanted) {
        const { wanted, trial } = this;
        this.wanted = undefined;
        const plan = await this.thread.plan(wanted);
        if (trial === this.trial) this.preview = plan;
      }
    });
    this.trying = false;
  }

  /** Ends a preview without keeping it. */
  dropPreview(): Promise<void> {
    this.endTrial();
    return this.change(async () => {
      await this.ask(this.thread.plan(this.log));
    });
  }

  undo(): Promise<void> {
    return this.change(async () => {
      const place = this.past.at(-1);
      if (place) await this.travel(place, this.past.slice(0, -1), [...this.future, this.place()]);
    });
  }

  redo(): Promise<void> {
    return this.change(async () => {
      const place = this.future.at(-1);
      if (place) await this.travel(place, [...this.past, this.place()], this.future.slice(0, -1));
    });
  }

  /** Back to the moment before the last action taken. */
  stepBack(): Promise<void> {
    return this.change(async () => {
      this.playing = false;
      const last = this.moment?.events.filter(({ entry, action }) => entry >= 0 && action?.do !== 'wait').at(-1);
      if (last) await this.put(this.log.slice(0, last.entry), last.time_min, this.place());
    });
  }

  /** The same bed, nothing done yet. */
  async startAgain(): Promise<void> {
    this.pause();
    await this.replace([], 0);
  }

  /** The scenario's procedure from the start. */
  async playProcedure(): Promise<void> {
    if (!this.scenario) return;
    await this.replace(this.scenario.procedure, 0);
    this.stopAt = this.plan?.logEnd.time_min ?? 0;
    this.play();
  }

  /** Plays until something is reached, or until nothing flows. */
  async runUntil(until: Until): Promise<void> {
    if (!this.moment) return;
    const { time_min } = this.moment;
    await this.guard(async () => {
      this.stopAt = await this.ask(this.thread.timeOf(time_min, until));
      this.until = until;
      this.play();
    });
  }

  /** Shows an earlier moment; the run stands still meanwhile. Without one, the present again. */
  async lookBack(time_min: number | undefined): Promise<void> {
    const present = this.present ?? this.now;
    this.pause();
    const back = time_min !== undefined && time_min < present;
    this.present = back ? present : undefined;
    await this.seek(back ? time_min : present);
  }

  play(): void {
    if (this.present !== undefined) return void this.lookBack(undefined);
    const end = this.plan?.logEnd.time_min ?? 0;
    if (this.now >= this.stopAt) this.stopAt = Number.POSITIVE_INFINITY;
    // What is already written down is done first; nobody wants the bed to run dry behind it.
    if (!Number.isFinite(this.stopAt) && this.entry < this.log.length && end > this.now) this.stopAt = end;
    this.playing = true;
  }

  pause(): void {
    this.playing = false;
    this.until = undefined;
    this.stopAt = Number.POSITIVE_INFINITY;
  }

  setSpeed(speed: number): void {
    this.speed = speed;
  }

  /** Shows another moment of the run. */
  async seek(time_min: number): Promise<void> {
    await this.guard(async () => {
      const now = Math.min(time_min, RUN_MAX_MIN);
      const moment = await this.ask(this.thread.moment(now));
      batch(() => {
        this.moment = moment;
        this.now = now;
      });
    });
  }

  /** Straight to where playing would stop. */
  async skip(): Promise<void> {
    const stop = this.stopAt;
    if (!Number.isFinite(stop)) return;
    this.pause();
    await this.seek(stop);
  }

  /** Advances playing by a real time; called once per frame by the page. While the model still answers, or a handle is dragged, time waits. */
  async tick(elapsed_s: number): Promise<void> {
    if (!this.playing || !this.plan || this.preview || this.trying) return;
    this.owed_s = Math.min(this.owed_s + elapsed_s, TICK_MAX_S);
    if (this.busy || this.ticking) return;
    const next = this.now + this.owed_s * MIN_PER_S * this.speed;
    this.owed_s = 0;
    const end = Math.min(this.stopAt, RUN_MAX_MIN);
    const stop = next >= end;
    this.ticking = true;
    await this.seek(stop ? end : next);
    this.ticking = false;
    if (stop) this.pause();
  }

  close(): void {
    this.opened += 1;
    this.thread.close();
  }

  private place(): Place {
    return { log: this.log, now: this.present ?? this.now };
  }

  private async take(action: Action): Promise<RunEvent | undefined> {
    if (!this.moment) return undefined;
    const before = this.place();
    const { time_min, delivered_mL } = this.moment;
    const log = [...this.taken, { ...action, at_min: time_min }];
    const tooMany = tooLong(log);
    if (tooMany) return this.refuse({ entry: log.length - 1, time_min, delivered_mL, action, refused: tooMany }, before);
    const shown = await this.run({ log, now: time_min });
    const event = shown.moment.events.find(({ entry }) => entry === log.length - 1);
    if (event?.refused) return this.refuse(event, before);
    batch(() => {
      this.refusal = undefined;
      this.show(shown);
      this.remember(before);
    });
    await this.aimAgain();
    return undefined;
  }

  private async takeAll(actions: Log, plays: boolean): Promise<RunEvent | undefined> {
    const [first, ...rest] = actions;
    if (!this.moment || !first) return undefined;
    const before = this.place();
    const { time_min } = this.moment;
    const { taken } = this;
    const shown = await this.run({ log: [...taken, { ...first, at_min: time_min }, ...rest], now: time_min });
    const refused = shown.plan.events.find((event) => event.entry >= taken.length && event.refused);
    if (refused) return this.refuse(refused, before);
    const last = actions.at(-1);
    batch(() => {
      this.refusal = undefined;
      this.show(shown);
      this.remember(before);
      if (!plays) return;
      this.until = last?.do === 'wait' ? last.until : undefined;
      this.stopAt = shown.plan.logEnd.time_min;
      this.playing = true;
    });
    if (!plays) await this.aimAgain();
    return undefined;
  }

  /** A refused action changes nothing: the model goes back to the log without it, which holds only what was done. */
  private async refuse(event: RunEvent, before: Place): Promise<RunEvent> {
    await this.run(before);
    batch(() => {
      this.refusal = event;
      this.refusals = [...this.refusals, event];
      this.preview = undefined;
    });
    return event;
  }

  /** An action on the way moves the moment at which playing is to stop. */
  private async aimAgain(): Promise<void> {
    const { until, moment } = this;
    if (!this.playing || !Number.isFinite(this.stopAt)) return;
    this.stopAt = until && moment ? await this.ask(this.thread.timeOf(moment.time_min, until)) : Number.POSITIVE_INFINITY;
  }

  /** `from`: the place that undo returns to. */
  private async put(log: Log, now: number, from: Place): Promise<void> {
    const tooMany = tooLong(log);
    if (tooMany) throw new Error(inWords([tooMany]));
    const shown = await this.run({ log, now });
    batch(() => {
      this.show(shown);
      this.remember(from);
    });
  }

  private async travel(place: Place, past: readonly Place[], future: readonly Place[]): Promise<void> {
    this.playing = false;
    const shown = await this.run(place);
    batch(() => {
      this.refusal = undefined;
      this.show(shown);
      this.past = past;
      this.future = future;
    });
  }

  private endTrial(): void {
    this.trial += 1;
    this.wanted = this.preview = undefined;
  }

  private remember(place: Place): void {
    this.past = [...this.past, place].slice(-UNDO_MAX);
    this.future = [];
  }

  private show({ plan, moment, now }: Shown): void {
    this.preview = undefined;
    this.present = undefined;
    this.plan = plan;
    this.moment = moment;
    this.now = now;
  }

  private async run({ log, now }: Place): Promise<Shown> {
    // No other log is tried from here on; the one that was last tried is seen until the answer comes.
    this.trial += 1;
    this.wanted = undefined;
    const [plan, moment] = await this.ask(Promise.all([this.thread.plan(log), this.thread.moment(now)]));
    return { plan, moment, log, now };
  }

  private async ask<Answer>(question: Promise<Answer>): Promise<Answer> {
    const { opened } = this;
    const answer = await question;
    if (opened !== this.opened) throw new Error('model: another run was opened meanwhile');
    return answer;
  }

  /** Does the work once the changes before it are done, but not if another run was opened meanwhile. */
  private change<Answer>(work: () => Promise<Answer>): Promise<Answer | undefined> {
    const { opened } = this;
    this.changes += 1;
    const turn = this.line.then(async () => {
      const answer = opened === this.opened ? await this.guard(work) : undefined;
      this.changes -= 1;
      return answer;
    });
    this.line = turn;
    return turn;
  }

  /** Asks the model; a failure is shown, not lost, unless it is of a run that is gone. */
  private async guard<Answer>(work: () => Promise<Answer>): Promise<Answer | undefined> {
    const { opened } = this;
    try {
      const answer = await work();
      this.failure = '';
      return answer;
    } catch (error) {
      if (opened === this.opened) this.fail(error);
      return undefined;
    }
  }

  private fail(error: unknown): void {
    this.failure = error instanceof Error ? error.message : String(error);
    this.playing = false;
  }
}

/** A log that could not be read again is not made. */
function tooLong(log: Log): Issue | undefined {
  if (log.length <= ACTIONS_MAX) return undefined;
  return { path: 'log', expected: `at most ${ACTIONS_MAX} actions in one run`, received: String(log.length) };
}
