import type { Action, Log, Scenario, Until } from '../../sim/terms/types.ts';
import type { RunEvent } from '../../sim/history/events.ts';
import type { ModelThread } from './threads/model-thread.ts';
import type { Moment } from './threads/planner.ts';
import type { Plan } from '../../sim/history/plan.ts';

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

/**
 * Holds the run and tells listeners (`change`) when anything it shows differs. All changes go through its methods; the
 * model answers from its own thread, and answers to questions that no longer matter are dropped.
 */
export class ColumnStore extends EventTarget {
  scenario: Scenario | undefined;
  /** The whole run of the present log, past and forecast. */
  plan: Plan | undefined;
  /** While a handle is dragged: the run as it would be. */
  preview: Plan | undefined;
  /** The column at the moment shown. */
  moment: Moment | undefined;
  /** Model time played so far, min. */
  now = 0;
  playing = false;
  speed: number = 20;
  /** Model time at which playing stops by itself, min. */
  stopAt = Number.POSITIVE_INFINITY;
  /** What the last action was refused for, and which action. */
  refusal: RunEvent | undefined;
  /** Everything that was refused since this run was opened; a refused action is not in the log. */
  refusals: readonly RunEvent[] = [];
  failure = '';
  private readonly thread: ModelThread;
  private past: Place[] = [];
  private future: Place[] = [];
  /** Questions that the model has not answered yet. */
  private questions = 0;
  private asking = false;
  private wanted: Log | undefined;
  private trial = 0;
  /** What playing is to stop at, where that was asked for. */
  private until: Until | undefined;
  private generation = 0;
  /** Real time not yet played because the model was still answering, s. */
  private owed_s = 0;
  /** Changes of the log wait here for those before them, so that none starts from a log that is about to go. */
  private line: Promise<unknown> = Promise.resolve();

  constructor(thread: ModelThread) {
    super();
    this.thread = thread;
  }

  get log(): Log {
    return this.plan?.log ?? [];
  }

  get canUndo(): boolean {
    return this.past.length > 0;
  }

  get canRedo(): boolean {
    return this.future.length > 0;
  }

  get busy(): boolean {
    return this.questions > 0;
  }

  /** Opens a scenario with a log, played up to `now`. */
  async open(scenario: Scenario, log: Log = [], now = 0): Promise<void> {
    this.generation += 1;
    this.playing = false;
    this.endTrial();
    this.scenario = scenario;
    this.plan = this.preview = this.moment = this.refusal = undefined;
    this.refusals = [];
    this.past = [];
    this.future = [];
    this.stopAt = Number.POSITIVE_INFINITY;
    await this.follow(async () => {
      this.plan = await this.thread.open(scenario, log);
      await this.show(now);
    });
  }

  /** Takes an action at the moment shown; what the log still had ahead is given up. Resolves to the refusal, if any. */
  act(action: Action): Promise<RunEvent | undefined> {
    return this.inLine(() => this.take(action));
  }

  /** Replaces the log (a dropped handle, a procedure) and shows it at `now`; one undo step. */
  replace(log: Log, now: number): Promise<void> {
    return this.inLine(() => this.put(log, now, this.place()));
  }

  /** Shows the run of another log while a handle moves. Only the newest log waits for the model. */
  async tryOut(log: Log): Promise<void> {
    this.wanted = log;
    if (this.asking) return;
    this.asking = true;
    try {
      while (this.wanted) {
        const next: Log = this.wanted;
        this.wanted = undefined;
        const { generation, trial } = this;
        const plan = await this.thread.plan(next);
        if (generation !== this.generation || trial !== this.trial) continue;
        this.preview = plan;
        this.tell();
      }
    } catch (error) {
      this.fail(error);
    } finally {
      this.asking = false;
    }
  }

  /** Ends a preview without keeping it. */
  dropPreview(): Promise<void> {
    return this.inLine(async () => {
      this.endTrial();
      const { log } = this;
      await this.follow(async () => {
        this.plan = await this.thread.plan(log);
      });
    });
  }

  undo(): Promise<void> {
    return this.inLine(() => this.travel(this.past, this.future));
  }

  redo(): Promise<void> {
    return this.inLine(() => this.travel(this.future, this.past));
  }

  /** Back to the moment before the last action taken. */
  stepBack(): Promise<void> {
    return this.inLine(async () => {
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
    const generation = this.generation;
    const reached = await this.thread.timeOf(this.moment.time_min, until);
    if (generation !== this.generation) return;
    this.stopAt = reached;
    this.until = until;
    this.play();
  }

  play(): void {
    if (this.now >= this.stopAt) this.stopAt = Number.POSITIVE_INFINITY;
    this.playing = true;
    this.tell();
  }

  pause(): void {
    this.playing = false;
    this.until = undefined;
    this.stopAt = Number.POSITIVE_INFINITY;
    this.tell();
  }

  setSpeed(speed: number): void {
    this.speed = speed;
    this.tell();
  }

  /** Shows another moment of the run. */
  async seek(time_min: number): Promise<void> {
    await this.follow(() => this.show(time_min));
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
    if (!this.playing || !this.plan || this.preview || this.asking) return;
    this.owed_s = Math.min(this.owed_s + elapsed_s, TICK_MAX_S);
    if (this.busy) return;
    const next = this.now + this.owed_s * MIN_PER_S * this.speed;
    this.owed_s = 0;
    const stop = next >= this.stopAt;
    await this.follow(() => this.show(stop ? this.stopAt : next));
    if (stop) this.pause();
  }

  close(): void {
    this.generation += 1;
    this.thread.close();
  }

  /** Actions taken up to the moment shown. */
  taken(): Log {
    return this.log.slice(0, this.moment?.entry ?? 0);
  }

  private place(): Place {
    return { log: this.log, now: this.now };
  }

  private async take(action: Action): Promise<RunEvent | undefined> {
    if (!this.moment) return undefined;
    const before = this.place();
    const { time_min } = this.moment;
    const log = [...this.taken(), { ...action, at_min: time_min }];
    await this.put(log, time_min, undefined);
    const event = this.moment.events.find(({ entry }) => entry === log.length - 1);
    this.refusal = event?.refused ? event : undefined;
    // A refused action changes nothing: it is taken out again, so the log holds only what was done.
    if (this.refusal) {
      this.refusals = [...this.refusals, this.refusal];
      await this.put(before.log, before.now, undefined);
    } else {
      this.remember(before);
      await this.aimAgain();
    }
    this.tell();
    return this.refusal;
  }

  /** An action on the way moves the moment at which playing is to stop. */
  private async aimAgain(): Promise<void> {
    const { until, moment } = this;
    if (!this.playing || !Number.isFinite(this.stopAt)) return;
    this.stopAt = until && moment ? await this.thread.timeOf(moment.time_min, until) : Number.POSITIVE_INFINITY;
  }

  /** `from`: the place that undo returns to. */
  private async put(log: Log, now: number, from: Place | undefined): Promise<void> {
    this.endTrial();
    await this.follow(async () => {
      this.plan = await this.thread.plan(log);
      if (from) this.remember(from);
      await this.show(now);
    });
  }

  private endTrial(): void {
    this.trial += 1;
    this.wanted = undefined;
    this.preview = undefined;
  }

  private remember(place: Place): void {
    this.past.push(place);
    if (this.past.length > UNDO_MAX) this.past.shift();
    this.future = [];
  }

  private async travel(from: Place[], to: Place[]): Promise<void> {
    const place = from.pop();
    if (!place) return;
    to.push(this.place());
    this.playing = false;
    this.refusal = undefined;
    await this.put(place.log, place.now, undefined);
  }

  private async show(time_min: number): Promise<void> {
    const generation = this.generation;
    const moment = await this.thread.moment(time_min);
    if (generation !== this.generation) return;
    this.moment = moment;
    this.now = time_min;
  }

  /** Runs a question to the model; a failure is shown, not lost. */
  private async follow(work: () => Promise<void>): Promise<void> {
    this.questions += 1;
    try {
      await work();
      this.failure = '';
    } catch (error) {
      this.fail(error);
    }
    this.questions -= 1;
    this.tell();
  }

  private fail(error: unknown): void {
    this.failure = error instanceof Error ? error.message : String(error);
    this.playing = false;
  }

  private inLine<Answer>(work: () => Promise<Answer>): Promise<Answer> {
    const turn = this.line.then(work);
    this.line = turn.catch(() => undefined);
    return turn;
  }

  private tell(): void {
    this.dispatchEvent(new Event('change'));
  }
}
