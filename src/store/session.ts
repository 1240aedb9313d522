import { effect, untracked } from '@preact/signals-core';
import { inWords } from '../../sim/input/index.ts';
import { RUN_ENDED } from '../../sim/run/index.ts';
import { COACH_LEVELS, type CoachLevel, SEEINGS, type Seeing, seenAtMost } from '../../sim/terms/seeing.ts';
import type { Log } from '../../sim/terms/types.ts';
import { Task } from './given/task.ts';
import { recalled, remember } from './keep/choices.ts';
import { differences, patched } from './keep/difference.ts';
import { decodeLink, encodeLink, type LinkOptions } from './keep/link.ts';
import type { Json, Outcome, SavedRun } from './keep/saved.ts';
import { idOf, isWorthKeeping, type KeptRun, openShelf, type Shelf } from './keep/shelf.ts';
import { type Autosave, openAutosave, type Unread } from './keep/storage.ts';
import { EMPTY_WORK_UP } from './keep/work-up.ts';
import { isOver } from './over.ts';
import { Pointing } from './pointing.ts';
import { FETCHED, HANDED_OUT, MODEL, OpenRun, SEEDS } from './run/open-run.ts';
import { FIRST_SCENARIO } from './shipped/catalog.ts';
import type { ModelThread } from './threads/model-thread.ts';
import { derived, tracked } from './tracked.ts';

export type { CoachLevel };

const SEEING_KEY = 'bandfall.seeing';
const COACH_KEY = 'bandfall.coach';
type Lasting = Omit<SavedRun, 'now_min'>;
/** Real time between two autosaves of a run that only plays on, ms; a change of the log is kept at once. */
const SAVE_EVERY_MS = 1000;
/**
 * What the tab is working on: which scenario, what was changed in it, the run itself, and the place of it that the reader
 * points at. Opens it from what was kept, a link or a file, and keeps it as it grows.
 */
export class Session extends OpenRun {
  readonly pointing = new Pointing();
  readonly task: Task;
  /** How much of the run the reader wants to see while it lasts; see `sees`. */
  @tracked seeing: Seeing = 'eye';
  /** The log of a run that is only watched. */
  @tracked private watched: Log | undefined;
  @tracked exaggerate = false;
  /** Runs kept by hand or put aside for another, oldest first; the one on the page may be among them. */
  @tracked runs: readonly KeptRun[] = [];
  /** Texts of handed-in runs that came by a link and wait to be taken in. */
  @tracked arrived: readonly string[] = [];
  /** Kept texts that this page could not read. */
  @tracked unread: readonly Unread[] = [];
  private readonly shelf: Shelf;
  private readonly autosave: Autosave;
  private readonly storage: Storage | undefined;
  /** What was kept last. */
  private kept: Lasting | undefined;
  /** What the storage holds of this run, as far as this tab knows; undefined while what it holds is being opened. */
  private stored: Lasting | 'opening' | undefined;
  private savedAt = 0;

  constructor(thread: ModelThread, storage: Storage | undefined, tab: string) {
    super(thread);
    this.storage = storage;
    this.coach = this.chosenCoach = recalled(storage, COACH_KEY, COACH_LEVELS, 'ask');
    this.seeing = recalled(storage, SEEING_KEY, SEEINGS, 'eye');
    this.shelf = openShelf(storage);
    this.autosave = openAutosave(storage, tab, this.shelf);
    this.runs = this.shelf.runs();
    this.task = new Task(this, storage);
    effect(() => {
      this.keep();
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
    if (shared === undefined || problem !== undefined) await this.fallBack(problem, fresh);
  }

  /** The same with a link to what was handed out. */
  async startHandOut(link: string, fresh?: () => number): Promise<void> {
    const problem = await this.task.openLink(link);
    if (problem !== undefined) await this.fallBack(problem, fresh);
  }

  /** The run on the page, else the one that was kept. */
  ownRun(): SavedRun | undefined {
    if (this.store.plan !== undefined) return this.saved();
    const kept = this.autosave.load();
    return kept.ok ? kept.value : undefined;
  }

  private async fallBack(problem: string | undefined, fresh?: () => number): Promise<void> {
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

  /** Uses a changed scenario from now on with another log; the run on the page is put aside. */
  async beginOther(json: Json, log: Log = []): Promise<boolean> {
    return this.leaving(() => this.change(json, log, 0));
  }

  /** The next aliquot on the next column: the seed after this one, with the same handling played to its end, or nothing done yet. What was kept stays. */
  async nextAliquot(sameHandling: boolean): Promise<boolean> {
    const { scenario } = this.store;
    if (!scenario) return false;
    if (this.given) return this.refuse([HANDED_OUT]);
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
    if (this.given) return this.task.next();
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
    remember(this.storage, COACH_KEY, level);
  }

  setSeeing(seeing: Seeing): void {
    this.seeing = seeing;
    remember(this.storage, SEEING_KEY, seeing);
  }

  /** Whether the run on the page is one that is told in captions; any action of the reader ends that. */
  @derived get watching(): boolean {
    return this.watched !== undefined && this.watched === this.store.log;
  }

  /** The scenario's procedure from the start, to be watched; it stands still at first. */
  async watchOne(): Promise<void> {
    const { scenario } = this.store;
    if (!scenario) return;
    await this.store.replace(scenario.procedure, 0);
    this.watched = this.store.log;
  }

  /** How much of the run is shown: what is wanted, but no more than the scenario allows before the end; the end opens everything. */
  @derived get sees(): Seeing {
    const { store } = this;
    const wanted = this.watching && this.seeing === 'eye' ? 'figure' : this.seeing;
    return this.ended || this.given?.ended || isOver(store) ? 'forecast' : seenAtMost(wanted, this.seeingMost);
  }

  /** The most that is shown before the end: by the scenario, and by what was handed out. */
  @derived get seeingMost(): Seeing {
    return seenAtMost(this.store.scenario?.seeing ?? 'forecast', this.given?.handOut.seeing ?? 'forecast');
  }

  /** Keeps the run at once, such as before the page goes away. False where this browser keeps nothing. */
  keepNow(): boolean {
    this.kept = undefined;
    return this.keep();
  }

  setExaggerate(on: boolean): void {
    this.exaggerate = on;
  }

  /** Undefined when the run of a link is open; otherwise why not, with nothing changed. */
  private async openLink(text: string): Promise<string | undefined> {
    const link = await decodeLink(text);
    if (!link.ok) return link.message;
    const own = this.ownRun();
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
    if (this.issues[0]?.path === FETCHED || this.issues[0]?.path === MODEL) {
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
