import { batch, effect } from '@preact/signals-core';
import { type Prediction, runMark } from '../../../sim/handed/index.ts';
import { type FractionTargets, switchWindow, type SwitchWindow, targetsOf, withStop } from '../../../sim/history/index.ts';
import { own } from '../../../sim/input/index.ts';
import { SEED_MAX, SEED_USUAL } from '../../../sim/math/random.ts';
import type { CoachLevel } from '../../../sim/terms/seeing.ts';
import type { Fault, Issue, Log, Scenario } from '../../../sim/terms/types.ts';
import { ColumnStore } from '../column-store.ts';
import type { Given } from '../given/given.ts';
import { patched } from '../keep/difference.ts';
import { type EyeMark, marksOfRun, withMark } from '../keep/eye-marks.ts';
import type { Diagnosis, Mystery } from '../keep/mystery.ts';
import type { Json, SavedRun } from '../keep/saved.ts';
import { EMPTY_WORK_UP } from '../keep/work-up.ts';
import { isOver } from '../over.ts';
import { FIRST_SCENARIO, scenarioJson } from '../shipped/catalog.ts';
import type { ModelThread } from '../threads/model-thread.ts';
import type { RunRead } from '../threads/reading.ts';
import { derived, tracked } from '../tracked.ts';
import { WorkUpStore } from '../work-up-store.ts';
import { predictionsOf, withPrediction } from './predictions.ts';

/** Place of the issue when a scenario cannot be fetched. */
export const FETCHED = 'scenario file';
/** The same when the model's thread does not read it. */
export const MODEL = 'model';
/** Why a scenario that was handed out cannot be changed. */
export const HANDED_OUT: Issue = {
  path: 'hand-out',
  expected: 'the column as it was handed out',
  received: 'a change; to change the scenario, open it outside the hand-out',
};
/** Seeds run from 0 to one less. */
export const SEEDS = SEED_MAX + 1;

type Beside = Pick<SavedRun, 'predictions' | 'marks' | 'mystery' | 'workup' | 'given'>;

/** The open run: its scenario, the changes to it, and what is kept with it. A change of the scenario opens it again. */
export class OpenRun {
  readonly store: ColumnStore;
  readonly workUp: WorkUpStore;
  @tracked base = FIRST_SCENARIO;
  /** JSON of the scenario as it ships. */
  @tracked shipped: Json = {};
  /** JSON of the scenario in use. */
  @tracked json: Json = {};
  /** The scenario as it is written, its faults still in their list. */
  @tracked written: Scenario | undefined;
  /** That of the run on the page: while another is being opened, still the one before. */
  @tracked shownAs: Scenario | undefined;
  @tracked coach: CoachLevel = 'ask';
  /** The reader's choice, used if a scenario does not set it. */
  protected chosenCoach: CoachLevel = 'ask';
  /** What the collected fraction must hold; undefined before a scenario is open. */
  @tracked targets: FractionTargets | undefined;
  /** What the reader expected, oldest first; see `validPredictions`. */
  @tracked predictions: readonly Prediction[] = [];
  @tracked private marks: readonly EyeMark[] = [];
  /** Present if the faults of this run are, or were, hidden from the reader. */
  @tracked mystery: Mystery | undefined;
  /** Present if the run is a try of a hand-out. */
  @tracked given: Given | undefined;
  /** Problems of the last attempt to open something. */
  @tracked issues: readonly Issue[] = [];
  /** One line for the reader: a damaged link, a full storage. */
  @tracked notice = '';
  @tracked noticeKind: 'note' | 'problem' = 'note';
  /** The run has ended once: what was shown then stays shown while the reader tries other actions in it. */
  @tracked protected ended = false;

  private readonly thread: ModelThread;

  constructor(thread: ModelThread) {
    this.thread = thread;
    this.store = new ColumnStore(thread);
    this.workUp = new WorkUpStore(this.store);
    effect(() => {
      if (isOver(this.store)) this.ended = true;
      else if (this.store.log.length === 0) this.ended = false;
    });
  }

  /** Faults that are in force from the start. */
  @derived get faults(): readonly Fault[] {
    return this.written?.faults ?? [];
  }

  /** The window for the change of receiver in the run that is shown. */
  @derived get window(): SwitchWindow | undefined {
    const { store, targets } = this;
    return store.shown && targets && switchWindow(store.shown, withStop(store.shown, targets));
  }

  /** Uses a changed scenario from now on, with the log as it stands. */
  async change(json: Json, log: Log = this.store.taken, now = this.store.now): Promise<boolean> {
    if (this.given) return this.refuse([HANDED_OUT]);
    return this.use(this.base, this.shipped, json, log, now, { ...this.beside(), workup: this.workUp.saved });
  }

  setTargets(targets: FractionTargets): void {
    this.targets = targets;
  }

  /** Keeps what the reader expects; a newer prediction on the same action replaces the older. */
  predict(prediction: Prediction): void {
    this.predictions = withPrediction(this.validPredictions(), prediction, this.json, this.store.log);
  }

  @derived private get ofThisRun(): readonly Prediction[] {
    return predictionsOf(this.predictions, this.json, this.store.log);
  }

  /**
   * Predictions of the run on the page whose action was taken. After an undo, the later ones are kept for a redo; those of a run
   * that was changed before their action are kept until the change is undone, since they do not apply to another run.
   */
  validPredictions(): readonly Prediction[] {
    return this.ofThisRun;
  }

  /** Keeps the depth at which the reader expects the edge after a further volume, or the volume at which the metal should leave. */
  markByEye(mark: Pick<EyeMark, 'mL' | 'depth_cm'>): void {
    const { store, json } = this;
    const { entry } = store;
    this.marks = withMark(this.eyeMarks, { ...mark, entry, made_in: runMark(json, store.log, entry - 1) }, store.moment?.delivered_mL ?? 0);
  }

  /** Predictions set by eye in the run on the page. */
  @derived get eyeMarks(): readonly EyeMark[] {
    return marksOfRun(this.marks, this.json, this.store.log);
  }

  /** Keeps what the reader says is wrong; the hidden faults are shown from now on. */
  diagnose(answer: Diagnosis): void {
    this.mystery = { answer };
  }

  say(notice: string, kind: 'note' | 'problem' = 'note'): void {
    batch(() => {
      this.notice = notice;
      this.noticeKind = kind;
    });
  }

  /** Opens a run in place of the one on the page. If there is a problem, only `issues` changes. */
  protected async openHere(run: SavedRun): Promise<boolean> {
    let shipped: Json | undefined;
    try {
      shipped = await scenarioJson(run.base);
    } catch (error) {
      return this.refuse([{ path: FETCHED, expected: 'an answer of the server', received: error instanceof Error ? error.message : String(error) }]);
    }
    if (shipped === undefined) return this.refuse([{ path: 'base', expected: 'a scenario that ships with the page', received: run.base }]);
    const changed = patched(shipped, run.differences);
    const sameSeed = Number.isNaN(run.seed) || (own(changed, 'seed') ?? SEED_USUAL) === run.seed;
    const json = sameSeed ? changed : patched(changed, { seed: run.seed });
    const opened = await this.use(run.base, shipped, json, run.log, run.now_min ?? 0, run);
    if (opened) this.coach = this.written?.coach ?? this.chosenCoach;
    return opened;
  }

  /** What is kept with a run besides scenario and log. */
  protected beside(): Beside {
    const { mystery, given, eyeMarks: marks } = this;
    const predictions = this.validPredictions();
    return {
      ...(predictions.length > 0 ? { predictions } : {}),
      ...(marks.length > 0 ? { marks } : {}),
      ...(mystery ? { mystery } : {}),
      ...(given ? { given } : {}),
    };
  }

  protected async use(base: string, shipped: Json, json: Json, log: Log, now: number, beside: Beside): Promise<boolean> {
    const read = await this.read(json, base, log);
    if (!read.ok) return this.refuse(read.issues);
    // The next change starts from this, even before the model has answered.
    batch(() => {
      this.base = base;
      this.shipped = shipped;
      this.json = json;
      this.written = read.written;
      this.issues = [];
    });
    // The page shows the actual bed: a short bed has fewer plates, a leach with other metals has more ions.
    await this.store.open(read.found, read.log, now, () => {
      this.shownAs = read.written;
      this.notice = '';
      this.predictions = beside.predictions ?? [];
      this.marks = beside.marks ?? [];
      this.mystery = beside.mystery;
      this.given = beside.given;
      this.ended = false;
      this.targets = targetsOf(read.written);
      this.workUp.open(beside.workup ?? EMPTY_WORK_UP);
    });
    return true;
  }

  /** If the thread fails to read, the problem is in the page, not in the run. */
  private async read(json: Json, base: string, log: Log): Promise<RunRead> {
    try {
      return await this.thread.read(json, base, log);
    } catch (error) {
      return { ok: false, issues: [{ path: MODEL, expected: 'an answer', received: error instanceof Error ? error.message : String(error) }] };
    }
  }

  protected refuse(issues: readonly Issue[]): false {
    this.issues = issues;
    return false;
  }
}
