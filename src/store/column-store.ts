import { batch } from '@preact/signals-core';
import type { Action, Issue, Log, Scenario, Until } from '../../sim/terms/types.ts';
import type { RunEvent } from '../../sim/history/index.ts';
import { ACTIONS_MAX, inWords } from '../../sim/input/index.ts';
import { PlayedRun, type Shown } from './run/played-run.ts';
import { type Place, UndoHistory } from './run/undo.ts';
import { tracked } from './tracked.ts';

/** A run as it was shown, with what could be undone in it. */
export interface Bookmark extends Shown {
  readonly scenario: Scenario;
  readonly past: readonly Place[];
}

// The one owner of what the page shows: a scenario, a log, and how far the run has been played.

/** Why actions of a try that counts cannot be undone. */
const FIXED: Issue = { path: 'try', expected: 'the next action, since this try counts', received: 'a change' };

/**
 * Holds the run. All changes go through its methods; the model answers from its own thread, in the order of the questions,
 * and answers to questions that no longer matter are dropped.
 */
export class ColumnStore extends PlayedRun {
  /** The last action that was refused, and why. */
  @tracked refusal: RunEvent | undefined;
  /** Everything that was refused since this run was opened; a refused action is not in the log. */
  @tracked refusals: readonly RunEvent[] = [];
  /** Actions cannot be undone, because this try counts; see `OpenRun.given`. */
  @tracked fixed = false;
  private readonly undoHistory = new UndoHistory();

  get canUndo(): boolean {
    return !this.fixed && this.undoHistory.canUndo;
  }

  get canRedo(): boolean {
    return !this.fixed && this.undoHistory.canRedo;
  }

  /** Opens a scenario with a log, played up to `now`. The previous run stays until the model has answered; `along` is called in the same update. */
  open(scenario: Scenario, log: Log = [], now = 0, along: () => void = () => undefined): Promise<void> {
    this.turns.startOver();
    this.playback.playing = false;
    this.trial.end();
    return this.turns.take(async () => {
      const [plan, moment] = await this.turns.ask(Promise.all([this.thread.open(scenario, log), this.thread.moment(now)]));
      batch(() => {
        this.scenario = scenario;
        this.refusal = undefined;
        this.refusals = [];
        this.undoHistory.forget();
        this.stopAt = Number.POSITIVE_INFINITY;
        this.show({ plan, moment, log, now });
        along();
      });
    });
  }

  /** Takes an action at the moment shown; later actions of the log are dropped. Resolves to the refusal, if any. */
  act(action: Action): Promise<RunEvent | undefined> {
    const { scenario } = this;
    return this.turns.take(async () => (scenario === this.scenario ? this.take(action) : undefined));
  }

  /**
   * Takes actions one after the other from the moment shown, waits among them, and plays to the end of the last: one undo step.
   * If one of them would be refused, nothing is done and that one is returned.
   */
  carryOut(actions: Log): Promise<RunEvent | undefined> {
    const { scenario } = this;
    return this.turns.take(async () => (scenario === this.scenario ? this.takeAll(actions, true) : undefined));
  }

  /** Plays until something is reached, or until nothing flows. It is waited for in the log, so that playing stops there and not at the end of a step. */
  async runUntil(until: Until): Promise<void> {
    if (this.present !== undefined) await this.lookBack(undefined);
    await this.carryOut([{ do: 'wait', until }]);
  }

  /** Takes actions without waits at the moment shown: one undo step. */
  actAll(actions: Log): Promise<RunEvent | undefined> {
    const { scenario } = this;
    return this.turns.take(async () => (scenario === this.scenario ? this.takeAll(actions, false) : undefined));
  }

  /** Resolves once every change asked for so far is done. */
  async settled(): Promise<void> {
    await this.turns.take(async () => undefined);
  }

  /** Replaces the log (a dropped handle, a procedure) and shows it at `now`; one undo step. */
  replace(log: Log, now: number): Promise<void> {
    if (this.fixed) return this.sayFixed();
    return this.turns.take(() => this.put(log, now, this.place()));
  }

  /** The run at its present, to come back to. */
  bookmark(): Bookmark | undefined {
    const { scenario, plan, atPresent: moment, log, present_min: now } = this;
    return scenario && plan && moment && { scenario, plan, moment, log, now, past: this.undoHistory.places };
  }

  /** Shows that run again at once, and drops what waits to be done in the one on the page; the model follows. Nothing if another scenario is open. */
  async comeBack({ scenario, past, ...shown }: Bookmark): Promise<void> {
    if (scenario !== this.scenario) return;
    this.turns.startOver();
    this.pause();
    this.trial.end();
    batch(() => {
      this.show(shown);
      this.undoHistory.arrive({ past, future: [] });
    });
    await this.turns.take(() => this.run(shown));
  }

  undo(): Promise<void> {
    if (this.fixed) return this.sayFixed();
    return this.turns.take(() => this.travel(this.undoHistory.back(this.place())));
  }

  redo(): Promise<void> {
    if (this.fixed) return this.sayFixed();
    return this.turns.take(() => this.travel(this.undoHistory.forth(this.place())));
  }

  /** Back to the moment before the last action taken. */
  stepBack(): Promise<void> {
    if (this.fixed) return this.sayFixed();
    return this.turns.take(async () => {
      this.playback.playing = false;
      const last = this.moment?.events.filter(({ entry, action }) => entry >= 0 && action && action.do !== 'wait').at(-1);
      if (last) await this.put(this.log.slice(0, last.entry), last.time_min, this.place());
    });
  }

  /** The same bed, nothing done yet. */
  async startAgain(): Promise<void> {
    this.pause();
    await this.replace([], 0);
  }

  /** The scenario's procedure from the start, in the bed that was packed if the tube was empty. In a try that counts only where nothing was done before. */
  async playProcedure(): Promise<void> {
    const { scenario, taken } = this;
    if (!scenario) return;
    if (this.fixed && taken.length > 0) return this.sayFixed();
    const last = taken.findLastIndex((action) => action.do === 'pack');
    const packed = taken.slice(0, last + (taken[last + 1]?.do === 'wait' ? 2 : 1));
    const log = last < 0 ? scenario.procedure : [...packed, ...scenario.procedure];
    await this.turns.take(() => this.put(log, 0, this.place()));
    this.stopAt = this.plan?.logEnd.time_min ?? 0;
    this.play();
  }

  private async sayFixed(): Promise<void> {
    const { time_min = 0, delivered_mL = 0 } = this.moment ?? {};
    this.refusal = { entry: -1, time_min, delivered_mL, refused: FIXED };
  }

  private async take(action: Action): Promise<RunEvent | undefined> {
    if (!this.moment) return undefined;
    const before = this.place();
    const { time_min, delivered_mL } = this.moment;
    const log = [...this.taken, { ...action, at_min: time_min }];
    const tooMany = tooLong(log);
    if (tooMany) return this.refuse({ entry: log.length - 1, time_min, delivered_mL, action, refused: tooMany }, before);
    const shown = await this.run({ log: [...log, ...this.wait()], now: time_min });
    const event = shown.moment.events.find(({ entry }) => entry === log.length - 1);
    if (event?.refused) return this.refuse(event, before);
    batch(() => {
      this.refusal = undefined;
      this.show(shown);
      this.undoHistory.remember(before);
      this.aimAgain(shown.plan);
    });
    return undefined;
  }

  private async takeAll(actions: Log, plays: boolean): Promise<RunEvent | undefined> {
    const [first, ...rest] = actions;
    if (!this.moment || !first) return undefined;
    const before = this.place();
    const { time_min } = this.moment;
    const { taken } = this;
    const shown = await this.run({ log: [...taken, { ...first, at_min: time_min }, ...rest, ...(plays ? [] : this.wait())], now: time_min });
    const refused = shown.plan.events.find((event) => event.entry >= taken.length && event.refused);
    if (refused) return this.refuse(refused, before);
    const last = actions.at(-1);
    batch(() => {
      this.refusal = undefined;
      this.show(shown);
      this.undoHistory.remember(before);
      if (plays) this.playback.playUntil(shown.plan.logEnd.time_min, last?.do === 'wait' ? last.until : undefined);
      else this.aimAgain(shown.plan);
    });
    return undefined;
  }

  /** A refused action changes nothing: the model goes back to the log without it, which holds only what was done. */
  private async refuse(event: RunEvent, before: Place): Promise<RunEvent> {
    await this.run(before);
    batch(() => {
      this.refusal = event;
      this.refusals = [...this.refusals, event];
      this.trial.plan = undefined;
    });
    return event;
  }

  /** `from`: the place that undo returns to. */
  private async put(log: Log, now: number, from: Place): Promise<void> {
    const tooMany = tooLong(log);
    if (tooMany) throw new Error(inWords([tooMany]));
    const shown = await this.run({ log, now });
    batch(() => {
      this.show(shown);
      this.undoHistory.remember(from);
    });
  }

  private async travel(journey: ReturnType<UndoHistory['back']>): Promise<void> {
    if (!journey) return;
    this.playback.playing = false;
    const shown = await this.run(journey.to);
    batch(() => {
      this.refusal = undefined;
      this.show(shown);
      this.undoHistory.arrive(journey);
    });
  }
}

/** Refuses a log that is too long to be read again. */
function tooLong(log: Log): Issue | undefined {
  if (log.length <= ACTIONS_MAX) return undefined;
  return { path: 'log', expected: `at most ${ACTIONS_MAX} actions in one run`, received: String(log.length) };
}
