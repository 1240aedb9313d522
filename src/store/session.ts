import { SEED_MAX } from '../../sim/math/random.ts';
import { drawn } from '../../sim/column/index.ts';
import { batch, effect, untracked } from '@preact/signals-core';
import { COACH_LEVELS, type CoachLevel, SEEINGS, type Seeing, seenAtMost } from '../../sim/terms/seeing.ts';
import { inWords, readLog, readScenario } from '../../sim/input/index.ts';
import { imposed } from '../../sim/faults/index.ts';
import { RUN_ENDED } from '../../sim/run/index.ts';
import type { Fault, Issue, Log, Scenario } from '../../sim/terms/types.ts';
import { FIRST_SCENARIO, scenarioJson } from './catalog.ts';
import { ColumnStore } from './column-store.ts';
import { differences, patched } from './keep/difference.ts';
import { decodeLink, encodeLink, type LinkOptions } from './keep/link.ts';
import { type EyeMark, marksOfRun, withMark } from './keep/eye-marks.ts';
import type { Diagnosis, Mystery } from './keep/mystery.ts';
import type { ModelThread } from './threads/model-thread.ts';
import { type Prediction, PREDICTIONS_MAX, runMark } from '../../sim/handed/index.ts';
import type { Json, Outcome, SavedRun } from './keep/saved.ts';
import { idOf, isWorthKeeping, type KeptRun, openShelf, type Shelf } from './keep/shelf.ts';
import { type Autosave, openAutosave, type Unread } from './keep/storage.ts';
import { type FractionTargets, switchWindow, type SwitchWindow, targetsOf, withStop } from '../../sim/history/index.ts';
import { isOver } from './over.ts';
import { Pointing } from './pointing.ts';
import { derived, tracked } from './tracked.ts';
import { EMPTY_WORK_UP } from './keep/work-up.ts';
import { WorkUpStore } from './work-up-store.ts';

export type { CoachLevel };

const SEEING_KEY = 'bandfall.seeing';
const COACH_KEY = 'bandfall.coach';
/** The action that a prediction is asked before. */
const ACTION_OF = { load: 'pour', eluent: 'pour', receiver: 'receiver', stop: 'clamp' } as const;

type Lasting = Omit<SavedRun, 'now_min'>;
type Beside = Pick<SavedRun, 'predictions' | 'marks' | 'mystery' | 'workup'>;

/** Real time between two autosaves of a run that only plays on, ms; a change of the log is kept at once. */
const SAVE_EVERY_MS = 1000;
/** Place of the issue when a scenario cannot be fetched. */
const FETCHED = 'scenario file';
/** Seeds run from 0 to one less. */
const SEEDS = SEED_MAX + 1;

/**
 * What the tab is working on: which scenario, what was changed in it, the run itself, and the place of it that the reader
 * points at. Opens it from what was kept, a link or a file, and keeps it as it grows.
 */
export class Session {
  readonly store: ColumnStore;
  readonly workUp: WorkUpStore;
  readonly pointing = new Pointing();
  @tracked base = FIRST_SCENARIO;
  /** JSON of the scenario as it ships. */
  @tracked shipped: Json = {};
  /** JSON of the scenario in use. */
  @tracked json: Json = {};
  @tracked coach: CoachLevel = 'ask';
  /** How much of the run the reader wants to see while it lasts; see `sees`. */
  @tracked seeing: Seeing = 'eye';
  /** The run has once come to its end: what was opened then stays open while its moments are tried otherwise. */
  @tracked private ended = false;
  @tracked exaggerate = false;
  /** What the collected fraction must hold; undefined before a scenario is open. */
  @tracked targets: FractionTargets | undefined;
  /** What the reader expected, oldest first; see `validPredictions`. */
  @tracked predictions: readonly Prediction[] = [];
  @tracked private marks: readonly EyeMark[] = [];
  /** There when the faults of this run are, or were, hidden from the reader. */
  @tracked mystery: Mystery | undefined;
  /** Problems of the last thing that was asked to be opened. */
  @tracked issues: readonly Issue[] = [];
  /** One line for the reader: a damaged link, a full storage. */
  @tracked notice = '';
  @tracked noticeKind: 'note' | 'problem' = 'note';
  /** Runs kept by hand or put aside for another, oldest first; the one on the page may be among them. */
  @tracked runs: readonly KeptRun[] = [];
  /** Kept texts that this page could not read. */
  @tracked unread: readonly Unread[] = [];
  private readonly shelf: Shelf;
  /** What the reader has chosen, where a scenario does not say. */
  private chosenCoach: CoachLevel;
  private readonly autosave: Autosave;
  private readonly storage: Storage | undefined;
  /** What was kept last. */
  private kept: Lasting | undefined;
  /** What the storage holds of this run, as far as this tab knows; undefined while what it holds is being opened. */
  private stored: Lasting | 'opening' | undefined;
  private savedAt = 0;

  constructor(thread: ModelThread, storage: Storage | undefined, tab: string) {
    this.store = new ColumnStore(thread);
    this.workUp = new WorkUpStore(this.store);
    this.storage = storage;
    this.coach = this.chosenCoach = rememberedCoach(storage);
    this.seeing = rememberedSeeing(storage);
    this.shelf = openShelf(storage);
    this.autosave = openAutosave(storage, tab, this.shelf);
    this.runs = this.shelf.runs();
    effect(() => {
      this.keep();
    });
    effect(() => {
      if (isOver(this.store)) this.ended = true;
      else if (this.store.log.length === 0) this.ended = false;
    });
    effect(() => {
      const ended = this.store.plan?.events.find(({ note }) => note?.startsWith(RUN_ENDED))?.note;
      if (ended) untracked(() => this.say(ended, 'problem'));
    });
  }

  /**
   * What the tab shows first: a shared run beside the reader's own, else the one kept, else the default scenario untouched, on a
   * column drawn from `fresh`, so that watching decides and not a remembered volume.
   */
  async start(shared: string | undefined, fresh?: () => number): Promise<void> {
    const problem = shared === undefined ? undefined : await this.openLink(shared);
    if (shared !== undefined && problem === undefined) return;
    const open = this.store.plan !== undefined;
    const found = open
      ? 'run on the page is as it was'
      : (await this.openKept(fresh))
        ? 'run kept in this browser is open instead'
        : 'default scenario is open instead';
    if (problem !== undefined) this.say(`${problem}. The ${found}.`, 'problem');
  }

  /** A run that was put aside for another waits to be gone back to. */
  @derived get hasBeside(): boolean {
    return this.before !== undefined;
  }

  /** Back to the run that was put aside last; the one on the page is put aside. */
  async goBack(): Promise<void> {
    if (this.before) await this.openRun(this.before.run);
  }

  /** Keeps the run on the page under a name. */
  keepRun(name: string): void {
    this.shelve(this.saved(), name);
  }

  renameKept(id: string, name: string): void {
    this.shelf.rename(id, name);
    this.runs = this.shelf.runs();
  }

  /** Throws a kept run away. */
  dropKept(id: string): void {
    this.shelf.remove(id);
    this.runs = this.shelf.runs();
  }

  /** Keeps a run within reach of `goBack`, if anything was done in it. */
  putAside(run: SavedRun): void {
    if (isWorthKeeping(run)) this.shelve(run);
    else this.runs = this.shelf.runs();
  }

  forgetUnread(): void {
    this.autosave.forgetUnread();
    this.unread = [];
  }

  /** Opens a shipped scenario with nothing done yet. */
  async openScenario(id: string): Promise<boolean> {
    return this.openRun(untouched(id));
  }

  /** Opens a kept run and puts the one on the page aside. On any problem nothing changes but `issues`. */
  async openRun(run: SavedRun): Promise<boolean> {
    return this.leaving(() => this.openHere(run));
  }

  private async openHere(run: SavedRun): Promise<boolean> {
    let shipped: Json | undefined;
    try {
      shipped = await scenarioJson(run.base);
    } catch (error) {
      return this.refuse([{ path: FETCHED, expected: 'an answer of the server', received: error instanceof Error ? error.message : String(error) }]);
    }
    if (shipped === undefined) return this.refuse([{ path: 'base', expected: 'a scenario that ships with the page', received: run.base }]);
    const changed = patched(shipped, run.differences);
    const written = readScenario(changed, run.base);
    const sameSeed = Number.isNaN(run.seed) || (written.ok && written.scenario.seed === run.seed);
    const json = sameSeed ? changed : patched(changed, { seed: run.seed });
    const opened = await this.use(run.base, shipped, json, run.log, run.now_min ?? 0, run);
    if (opened) this.coach = (written.ok ? written.scenario.coach : undefined) ?? this.chosenCoach;
    return opened;
  }

  /** Uses a changed scenario from now on with another log; the run on the page is put aside. */
  async beginOther(json: Json, log: Log = []): Promise<boolean> {
    return this.leaving(() => this.change(json, log, 0));
  }

  /** Uses a changed scenario from now on, with the log as it stands. */
  async change(json: Json, log: Log = this.store.taken, now = this.store.now): Promise<boolean> {
    return this.use(this.base, this.shipped, json, log, now, { ...this.beside(), workup: this.workUp.saved });
  }

  /** The next aliquot on the next column: the seed after this one, with the same handling played to its end, or nothing done yet. What was kept stays. */
  async nextAliquot(sameHandling: boolean): Promise<boolean> {
    const { scenario } = this.store;
    if (!scenario) return false;
    const { kept, entries } = this.workUp.saved;
    const seed = (Math.max(scenario.seed, ...kept.map((one) => one.seed)) + 1) % SEEDS;
    const workup = { ...EMPTY_WORK_UP, kept, entries, ...(sameHandling ? { receiver: this.workUp.saved.receiver } : {}) };
    const log = sameHandling ? this.store.taken : [];
    const mystery = this.mystery ? { mystery: this.mystery } : {};
    const opened = await this.leaving(() => this.use(this.base, this.shipped, patched(this.json, { seed }), log, 0, { ...mystery, workup }));
    if (opened && sameHandling) await this.store.seek(this.store.plan?.logEnd.time_min ?? 0);
    return opened;
  }

  /** The same scenario on another column, drawn from this number, with nothing done yet; what was kept stays. */
  async freshColumn(drawn: number): Promise<boolean> {
    const { kept, entries } = this.workUp.saved;
    const workup = { ...EMPTY_WORK_UP, kept, entries };
    return this.leaving(() => this.use(this.base, this.shipped, patched(this.json, { seed: drawn % SEEDS }), [], 0, { workup }));
  }

  /** The run as it would be kept. */
  saved(): SavedRun {
    return { ...this.lasting, now_min: this.store.present ?? this.store.now };
  }

  async link(options?: LinkOptions): Promise<Outcome<string>> {
    return encodeLink(this.saved(), { seal: this.mystery !== undefined, ...options });
  }

  setCoach(level: CoachLevel): void {
    this.coach = this.chosenCoach = level;
    try {
      this.storage?.setItem(COACH_KEY, level);
    } catch {
      // Only the memory of the choice is lost.
    }
  }

  setSeeing(seeing: Seeing): void {
    this.seeing = seeing;
    try {
      this.storage?.setItem(SEEING_KEY, seeing);
    } catch {
      // Only the memory of the choice is lost.
    }
  }

  /** How much of the run is shown: what is wanted, but no more than the scenario allows before the end; the end opens everything. */
  @derived get sees(): Seeing {
    const { store } = this;
    return this.ended || isOver(store) ? 'forecast' : seenAtMost(this.seeing, store.scenario?.seeing ?? 'forecast');
  }

  setTargets(targets: FractionTargets): void {
    this.targets = targets;
  }

  /** Keeps what the reader expects; a newer prediction on the same action takes the place of the older. */
  predict(prediction: Prediction): void {
    this.predictions = [
      ...this.validPredictions().filter(({ entry, occasion }) => entry !== prediction.entry || occasion !== prediction.occasion),
      { ...prediction, made_in: runMark(this.json, this.store.log, prediction.entry) },
    ].slice(-PREDICTIONS_MAX);
  }

  /** Keeps where the reader expects the edge to be, or the metal to leave, once so much more is through. */
  markByEye(mark: Pick<EyeMark, 'mL' | 'depth_cm'>): void {
    const { store, json } = this;
    const { entry } = store;
    this.marks = withMark(this.eyeMarks, { ...mark, entry, made_in: runMark(json, store.log, entry - 1) }, store.moment?.delivered_mL ?? 0);
  }

  /** Predictions set by eye in the run on the page. */
  @derived get eyeMarks(): readonly EyeMark[] {
    return marksOfRun(this.marks, this.json, this.store.log);
  }

  @derived private get ofThisRun(): readonly Prediction[] {
    const { json, store } = this;
    return this.predictions.filter(
      ({ entry, occasion, made_in }) => store.log[entry]?.do === ACTION_OF[occasion] && (made_in === undefined || made_in === runMark(json, store.log, entry)),
    );
  }

  /** The scenario as it is written, its faults still in their list. */
  @derived get written(): Scenario | undefined {
    const read = readScenario(this.json, this.base);
    return read.ok ? read.scenario : undefined;
  }

  /** Faults that are in force from the start. */
  @derived get faults(): readonly Fault[] {
    return this.written?.faults ?? [];
  }

  /** When the receiver is best changed in the run to be looked at. */
  @derived get window(): SwitchWindow | undefined {
    const { store, targets } = this;
    return store.shown && targets && switchWindow(store.shown, withStop(store.shown, targets));
  }

  /**
   * Predictions of the run on the page whose action was taken. After an undo the later ones wait for a redo, and those of a run
   * that was since changed before their action wait for the change to be taken back: they say nothing of another run.
   */
  validPredictions(): readonly Prediction[] {
    return this.ofThisRun;
  }

  /** Keeps what the reader says is wrong; the hidden faults are shown from now on. */
  diagnose(answer: Diagnosis): void {
    this.mystery = { answer };
  }

  /** Keeps the run at once, such as before the page goes away. False where this browser keeps nothing. */
  keepNow(): boolean {
    this.kept = undefined;
    return this.keep();
  }

  setExaggerate(on: boolean): void {
    this.exaggerate = on;
  }

  say(notice: string, kind: 'note' | 'problem' = 'note'): void {
    batch(() => {
      this.notice = notice;
      this.noticeKind = kind;
    });
  }

  /** Undefined when the run of a link is open; otherwise why not, with nothing changed. */
  private async openLink(text: string): Promise<string | undefined> {
    const link = await decodeLink(text);
    if (!link.ok) return link.message;
    const kept = this.store.plan === undefined ? this.autosave.load() : undefined;
    const own = kept === undefined ? this.saved() : kept.ok ? kept.value : undefined;
    if (!(await this.openHere(link.value))) return `link: ${inWords(this.issues)}`;
    this.unread = this.autosave.unread();
    if (own) this.putAside(own);
    if (this.hasBeside) this.say('The run of the link is open. Your own run waits among the kept runs.');
    return undefined;
  }

  /** Opens what was kept, else the default scenario. True if there was a run. */
  private async openKept(fresh?: () => number): Promise<boolean> {
    const kept = this.autosave.load();
    this.stored = 'opening';
    const opened = kept.ok && kept.value !== undefined && (await this.openHere(kept.value));
    if (this.stored === 'opening') this.stored = undefined;
    const problem = opened ? '' : kept.ok ? this.leaveKept(kept.value) : kept.message;
    this.unread = this.autosave.unread();
    if (opened) return true;
    await this.openHere(fresh ? { ...untouched(FIRST_SCENARIO), seed: fresh() % SEEDS } : untouched(FIRST_SCENARIO));
    if (this.store.plan === undefined) this.say(inWords(this.issues), 'problem');
    else if (problem !== '') this.say(problem, 'problem');
    return false;
  }

  /** Keeps a run that could not be opened out of the way of the next: beside it where it may be opened later, else with the unread. */
  private leaveKept(run: SavedRun | undefined): string {
    if (run === undefined) return '';
    const why = inWords(this.issues);
    if (this.issues[0]?.path === FETCHED) {
      this.putAside(run);
      return `The run kept in this browser waits beside this one: ${why}`;
    }
    this.autosave.giveUp(why);
    return `autosave: the run kept in this browser could not be opened and was put aside; it can be saved as a file (${why})`;
  }

  /** What was kept or put aside last, but for the run on the page. */
  @derived private get before(): KeptRun | undefined {
    const here = this.store.plan ? idOf(this.lasting) : '';
    return this.runs.findLast(({ id }) => id !== here);
  }

  /** Opens something else; what is left for it is put aside once it is open. */
  private async leaving(open: () => Promise<boolean>): Promise<boolean> {
    const left = this.store.plan && this.saved();
    const opened = await open();
    if (opened && left) this.putAside(left);
    return opened;
  }

  private shelve(run: SavedRun, name?: string): void {
    const kept = this.shelf.put(run, name);
    this.runs = this.shelf.runs();
    if (!kept.ok) this.say(kept.message, 'problem');
  }

  private async use(base: string, shipped: Json, json: Json, log: Log, now: number, beside: Beside): Promise<boolean> {
    const read = readScenario(json, base);
    if (!read.ok) return this.refuse(read.issues);
    const readable = readLog(log, read.scenario);
    if (!readable.ok) return this.refuse(readable.issues);
    // What is asked for next builds on this, even before the model has answered.
    batch(() => {
      this.base = base;
      this.shipped = shipped;
      this.json = json;
      this.issues = [];
    });
    // The page shows the bed that is there: a short bed has fewer plates, a leach with company more ions.
    await this.store.open(imposed(drawn(read.scenario)), readable.log, now, () => {
      this.notice = '';
      this.predictions = beside.predictions ?? [];
      this.marks = beside.marks ?? [];
      this.mystery = beside.mystery;
      this.ended = false;
      this.targets = targetsOf(read.scenario);
      this.workUp.open(beside.workup ?? EMPTY_WORK_UP);
    });
    return true;
  }

  /** What is kept of a run, but for the time it was played to: the same object as long as only that differs. */
  @derived private get lasting(): Lasting {
    const { scenario, log } = this.store;
    return {
      base: this.base,
      differences: differences(this.shipped, this.json),
      seed: scenario?.seed ?? 1,
      log,
      ...this.beside(),
      ...(this.workUp.saved === EMPTY_WORK_UP ? {} : { workup: this.workUp.saved }),
    };
  }

  /** What is kept with a run besides scenario and log. */
  private beside(): Beside {
    const { mystery } = this;
    const { eyeMarks: marks } = this;
    const predictions = this.validPredictions();
    return { ...(predictions.length > 0 ? { predictions } : {}), ...(marks.length > 0 ? { marks } : {}), ...(mystery ? { mystery } : {}) };
  }

  private refuse(issues: readonly Issue[]): false {
    this.issues = issues;
    return false;
  }

  /** Keeps the run when anything but the time has changed, and now and then while it plays. */
  private keep(): boolean {
    const { store, lasting } = this;
    const run = this.saved();
    if (!store.plan || store.preview || store.busy) return true;
    const now = Date.now();
    if (this.kept === lasting && store.playing && now - this.savedAt < SAVE_EVERY_MS) return true;
    this.kept = lasting;
    this.savedAt = now;
    // What was just opened from the storage is there already.
    const opening = this.stored === 'opening';
    const idle = this.stored === lasting;
    this.stored = lasting;
    if (opening) return true;
    const kept = this.autosave.save(run, idle);
    if (!kept.ok) untracked(() => this.notice === '' && this.say(kept.message, 'problem'));
    return kept.ok;
  }
}

/** A shipped scenario with the column of its own seed and nothing done. */
function untouched(id: string): SavedRun {
  return { base: id, differences: {}, seed: Number.NaN, log: [] };
}

function rememberedSeeing(storage: Storage | undefined): Seeing {
  try {
    const kept = storage?.getItem(SEEING_KEY);
    return SEEINGS.find((seeing) => seeing === kept) ?? 'eye';
  } catch {
    return 'eye';
  }
}

function rememberedCoach(storage: Storage | undefined): CoachLevel {
  try {
    const kept = storage?.getItem(COACH_KEY);
    return COACH_LEVELS.find((level) => level === kept) ?? 'ask';
  } catch {
    return 'ask';
  }
}
