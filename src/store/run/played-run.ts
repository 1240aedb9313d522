import { batch } from '@preact/signals-core';
import type { Log, Scenario } from '../../../sim/terms/types.ts';
import { type Handle, handlesOf, type Plan } from '../../../sim/history/index.ts';
import { RUN_MAX_MIN } from '../../../sim/terms/limits.ts';
import type { ModelThread } from '../threads/model-thread.ts';
import type { Moment } from '../threads/planner.ts';
import { derived, tracked } from '../tracked.ts';
import { Playback } from './playback.ts';
import { Trial } from './trial.ts';
import { Turns } from './turns.ts';
import type { Place } from './undo.ts';

/** What a change of the run leads to, shown all at once. */
export interface Shown extends Place {
  readonly plan: Plan;
  readonly moment: Moment;
}

/** A run as it is shown: which moment is shown, how time passes, and how the run would be while a handle is dragged. */
export class PlayedRun {
  @tracked scenario: Scenario | undefined;
  /** The whole run of the present log, past and forecast. */
  @tracked plan: Plan | undefined;
  /** The column at the moment shown. */
  @tracked moment: Moment | undefined;
  /** Model time played so far, min. */
  @tracked now = 0;
  /** While the reader looks back: the model time of the present, min. */
  @tracked present: number | undefined;
  /** The column then. */
  @tracked private left: Moment | undefined;
  protected readonly thread: ModelThread;
  protected readonly playback = new Playback();
  protected readonly turns = new Turns(() => {
    this.playback.playing = false;
  });
  protected readonly trial = new Trial();

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

  /** While a handle is dragged: the run as it would be. */
  get preview(): Plan | undefined {
    return this.trial.plan;
  }

  /** That run is computed along one lane; the exact one follows. */
  get isRough(): boolean {
    return this.trial.plan !== undefined && this.trial.isRough;
  }

  /** Changes of the run wait for the model. */
  get busy(): boolean {
    return this.turns.busy;
  }

  /** Why the model failed; empty while it answers. */
  get failure(): string {
    return this.turns.failure;
  }

  get playing(): boolean {
    return this.playback.playing;
  }

  get speed(): number {
    return this.playback.speed;
  }

  /** Model time at which playing stops by itself, min. */
  get stopAt(): number {
    return this.playback.stopAt;
  }

  set stopAt(time_min: number) {
    this.playback.stopAt = time_min;
  }

  /** The column at the present, whichever moment is shown: what is made of the run, such as a work-up, goes by this. */
  @derived get atPresent(): Moment | undefined {
    return this.present === undefined ? this.moment : this.left;
  }

  /** Model time of the present, min. */
  get present_min(): number {
    return this.present ?? this.now;
  }

  /** Actions taken up to the present. */
  @derived get takenByNow(): Log {
    return this.log.slice(0, this.atPresent?.entry ?? 0);
  }

  /** Number of actions taken up to the moment shown. */
  @derived get entry(): number {
    return this.moment?.entry ?? 0;
  }

  /** Actions taken up to the moment shown. */
  @derived get taken(): Log {
    return this.log.slice(0, this.entry);
  }

  /** Shows the run of another log while a handle moves. */
  async tryOut(log: Log): Promise<void> {
    if (this.trial.want(log)) await this.turns.guard(() => this.trial.work(this.thread));
  }

  /** Ends a preview without keeping it. */
  dropPreview(): Promise<void> {
    this.trial.end();
    return this.turns.take(async () => {
      await this.turns.ask(this.thread.plan(this.log));
    });
  }

  /** Shows an earlier moment while the run is paused; without a time, the present again. */
  async lookBack(time_min: number | undefined): Promise<void> {
    const present = this.present_min;
    this.pause();
    const back = time_min !== undefined && time_min < present;
    batch(() => {
      this.left = back ? this.atPresent : undefined;
      this.present = back ? present : undefined;
    });
    await this.seek(back ? time_min : present);
  }

  /** Plays a stretch of the past again while the present waits where it is; see `lookBack`. */
  async replay(from_min: number, to_min: number): Promise<void> {
    const present = this.present_min;
    await this.lookBack(from_min);
    if (this.present === undefined) return;
    this.stopAt = Math.min(to_min, present);
    this.playback.playing = true;
  }

  play(): void {
    if (this.present !== undefined) return void this.lookBack(undefined);
    const end = this.plan?.logEnd.time_min ?? 0;
    if (this.now >= this.stopAt) this.stopAt = Number.POSITIVE_INFINITY;
    // Actions that are already in the log come first; playing stops after them so that the bed does not run dry.
    if (!Number.isFinite(this.stopAt) && this.entry < this.log.length && end > this.now) this.stopAt = end;
    this.playback.playing = true;
  }

  pause(): void {
    this.playback.pause();
  }

  setSpeed(speed: number): void {
    this.playback.speed = speed;
  }

  /** Shows another moment of the run. */
  async seek(time_min: number): Promise<void> {
    await this.turns.guard(async () => {
      const now = Math.min(time_min, RUN_MAX_MIN);
      const moment = await this.turns.ask(this.thread.moment(now));
      batch(() => {
        this.moment = moment;
        this.now = now;
      });
    });
  }

  /** Jumps to where playing would stop. */
  async skip(): Promise<void> {
    const stop = this.stopAt;
    if (!Number.isFinite(stop)) return;
    this.pause();
    await this.seek(stop);
  }

  /** Advances playing by a real time; called once per frame by the page. While the model still answers, or a handle is dragged, time waits. */
  async tick(elapsed_s: number): Promise<void> {
    if (!this.playing || !this.plan || this.preview || this.trial.isWorking) return;
    await this.playback.tick(elapsed_s, this.now, this.busy, (time_min) => this.seek(time_min));
  }

  close(): void {
    this.turns.startOver();
    this.thread.close();
  }

  protected place(): Place {
    return { log: this.log, now: this.present_min };
  }

  /** What is played to goes on to be waited for after an action on the way. */
  protected wait(): Log {
    const { until } = this.playback;
    return this.playing && until ? [{ do: 'wait', until }] : [];
  }

  /** An action during playing shifts the moment at which playing stops. */
  protected aimAgain({ logEnd }: Plan): void {
    if (this.playing && Number.isFinite(this.stopAt)) this.stopAt = this.playback.until ? logEnd.time_min : Number.POSITIVE_INFINITY;
  }

  protected show({ plan, moment, now }: Shown): void {
    this.trial.plan = undefined;
    this.present = this.left = undefined;
    this.plan = plan;
    this.moment = moment;
    this.now = now;
  }

  protected async run({ log, now }: Place): Promise<Shown> {
    this.trial.settle();
    const [plan, moment] = await this.turns.ask(Promise.all([this.thread.plan(log), this.thread.moment(now)]));
    return { plan, moment, log, now };
  }
}
