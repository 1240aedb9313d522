import { effect, untracked } from '@preact/signals-core';
import { inWords } from '../../../sim/input/index.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { differences } from '../keep/difference.ts';
import { encodeLink, type LinkOptions } from '../keep/link.ts';
import type { Json, Outcome, SavedRun } from '../keep/saved.ts';
import { idOf, isWorthKeeping, type KeptRun, openShelf, type Shelf } from '../keep/shelf.ts';
import { type Autosave, openAutosave, type Unread } from '../keep/storage.ts';
import { EMPTY_WORK_UP } from '../keep/work-up.ts';
import { FIRST_SCENARIO } from '../shipped/catalog.ts';
import type { ModelThread } from '../threads/model-thread.ts';
import { derived, tracked } from '../tracked.ts';
import { FETCHED, MODEL, OpenRun, SEEDS } from './open-run.ts';

type Lasting = Omit<SavedRun, 'now_min'>;
/** Real time between two autosaves of a run that only plays on, ms; a change of the log is kept at once. */
const SAVE_EVERY_MS = 1000;

/** The open run, kept as it grows, and the other kept runs: those kept by hand and those put aside for another. */
export class KeepingRun extends OpenRun {
  /** Runs kept by hand or put aside for another, oldest first; the one on the page may be among them. */
  @tracked runs: readonly KeptRun[] = [];
  /** Kept texts that this page could not read. */
  @tracked unread: readonly Unread[] = [];
  protected readonly storage: Storage | undefined;
  private readonly shelf: Shelf;
  protected readonly autosave: Autosave;
  /** What was kept last. */
  private kept: Lasting | undefined;
  /** What the storage holds of this run, as far as this tab knows; undefined while what it holds is being opened. */
  private stored: Lasting | 'opening' | undefined;
  private savedAt = 0;

  constructor(thread: ModelThread, storage: Storage | undefined, tab: string) {
    super(thread);
    this.storage = storage;
    this.shelf = openShelf(storage);
    this.autosave = openAutosave(storage, tab, (run) => untracked(() => this.shelve(run)));
    this.runs = this.shelf.runs();
    effect(() => {
      this.keep();
    });
  }

  /** The run on the page, or else the one that was kept. */
  ownRun(): SavedRun | undefined {
    if (this.store.plan !== undefined) return this.saved();
    const kept = this.autosave.load();
    return kept.ok ? kept.value : undefined;
  }

  /** Whether there is a run to go back to. */
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

  /** Deletes a kept run. */
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

  /** Opens a kept run and puts the one on the page aside. If there is a problem, only `issues` changes. */
  async openRun(run: SavedRun): Promise<boolean> {
    return this.leaving(() => this.openHere(run));
  }

  /** Uses a changed scenario from now on with another log; the run on the page is put aside. */
  async beginOther(json: Json, log: Log = []): Promise<boolean> {
    return this.leaving(() => this.change(json, log, 0));
  }

  /** The run as it would be kept. */
  saved(): SavedRun {
    return { ...this.lasting, now_min: this.store.present_min };
  }

  async link(options?: LinkOptions): Promise<Outcome<string>> {
    return encodeLink(this.saved(), { seal: this.mystery !== undefined, ...options });
  }

  /** Keeps the run at once, such as before the page goes away. False if this browser stores nothing. */
  keepNow(): boolean {
    this.kept = undefined;
    return this.keep();
  }

  /** Opens the kept run, or else the default scenario. True if there was a kept run. */
  protected async openKept(fresh?: () => number): Promise<boolean> {
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

  /** Keeps a run that could not be opened from being overwritten: among the kept runs if it may open later, otherwise with the unread texts. */
  private leaveKept(run: SavedRun | undefined): string {
    if (run === undefined) return '';
    const why = inWords(this.issues);
    if (this.issues[0]?.path === FETCHED || this.issues[0]?.path === MODEL) {
      this.putAside(run);
      return `The run kept in this browser could not be opened now and is among the kept runs: ${why}`;
    }
    this.autosave.giveUp(why);
    return `autosave: the run kept in this browser could not be opened and was put aside; it can be saved as a file (${why})`;
  }

  /** The run that was kept or put aside last, except the run on the page. */
  @derived private get before(): KeptRun | undefined {
    const here = this.store.plan ? idOf(this.lasting) : '';
    return this.runs.findLast(({ id }) => id !== here);
  }

  /** Opens something else; the present run is put aside once that is open. */
  protected async leaving(open: () => Promise<boolean>): Promise<boolean> {
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

  /** What is kept of a run, except the time it was played to: the same object as long as only that differs. */
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
    // A run just opened from the storage is there already.
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
export function untouched(id: string): SavedRun {
  return { base: id, differences: {}, seed: Number.NaN, log: [] };
}
