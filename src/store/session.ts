import { effect, untracked } from '@preact/signals-core';
import { inWords } from '../../sim/input/index.ts';
import { RUN_ENDED } from '../../sim/run/index.ts';
import { COACH_LEVELS, type CoachLevel, SEEINGS, type Seeing, seenAtMost } from '../../sim/terms/seeing.ts';
import type { Log, Scenario } from '../../sim/terms/types.ts';
import { Task } from './given/task.ts';
import { recalled, remember } from './keep/choices.ts';
import { patched } from './keep/difference.ts';
import { decodeLink } from './keep/link.ts';
import type { Json } from './keep/saved.ts';
import { isHidden } from './keep/mystery.ts';
import { EMPTY_WORK_UP } from './keep/work-up.ts';
import { isOver } from './over.ts';
import { Pointing } from './pointing.ts';
import { KeepingRun, untouched } from './run/keeping-run.ts';
import { HANDED_OUT, SEEDS } from './run/open-run.ts';
import type { ModelThread } from './threads/model-thread.ts';
import { derived, tracked } from './tracked.ts';

export type { CoachLevel };

const SEEING_KEY = 'bandfall.seeing';
const COACH_KEY = 'bandfall.coach';
/**
 * What the tab is working on: the scenario, the changes to it, the run itself, and the place in it that the reader
 * points at. Opens it from what was kept, a link or a file, and keeps it as it grows.
 */
export class Session extends KeepingRun {
  readonly pointing = new Pointing();
  readonly task: Task;
  /** How much of the run the reader wants to see while it lasts; see `sees`. */
  @tracked seeing: Seeing = 'eye';
  /** A run of a class that was opened as an example: whose it is and what it shows, as long as that scenario stays open. */
  @tracked private example: { readonly words: string; readonly of: Scenario | undefined } | undefined;
  /** The log of a run that is only watched. */
  @tracked private watched: Log | undefined;
  @tracked exaggerate = false;
  /** Texts of handed-in runs that came by a link and wait to be taken in. */
  @tracked arrived: readonly string[] = [];
  constructor(thread: ModelThread, storage: Storage | undefined, tab: string) {
    super(thread, storage, tab);
    this.coach = this.chosenCoach = recalled(storage, COACH_KEY, COACH_LEVELS, 'ask');
    this.seeing = recalled(storage, SEEING_KEY, SEEINGS, 'eye');
    this.task = new Task(this, storage);
    // A place of one column says nothing of another; the first may be named by the address.
    let before: Scenario | undefined;
    effect(() => {
      const { scenario } = this.store;
      if (before && scenario !== before) untracked(() => this.pointing.forget());
      before = scenario;
    });
    effect(() => {
      const ended = this.store.plan?.events.find(({ note }) => note?.startsWith(RUN_ENDED))?.note;
      if (ended) untracked(() => this.say(ended, 'problem'));
    });
  }

  /**
   * What the tab shows first: a shared run (the reader's own is kept), or else the kept run, or else the unchanged default scenario on a
   * column drawn from `fresh`, so that a remembered volume does not help.
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

  private async fallBack(problem: string | undefined, fresh?: () => number): Promise<void> {
    const open = this.store.plan !== undefined;
    const found = open
      ? 'run on the page was not changed'
      : (await this.openKept(fresh))
        ? 'run kept in this browser is open instead'
        : 'default scenario is open instead';
    if (problem !== undefined) this.say(`${problem}. The ${found}.`, 'problem');
  }

  /** Opens a shipped scenario with nothing done yet. */
  async openScenario(id: string): Promise<boolean> {
    return this.openRun(untouched(id));
  }

  /** The next aliquot on the next column: the seed after this one, with the same handling played to its end, or nothing done yet. Kept results stay. */
  async nextAliquot(sameHandling: boolean): Promise<boolean> {
    const { scenario } = this.store;
    if (!scenario) return false;
    if (this.given) return this.refuse([HANDED_OUT]);
    const { kept, entries } = this.workUp.saved;
    const seed = (Math.max(scenario.seed, ...kept.map((one) => one.seed)) + 1) % SEEDS;
    const workup = { ...EMPTY_WORK_UP, kept, entries, ...(sameHandling ? { receiver: this.workUp.saved.receiver } : {}) };
    const log = sameHandling ? this.store.takenByNow : [];
    const mystery = this.mystery ? { mystery: this.mystery } : {};
    const opened = await this.leaving(() => this.use(this.base, this.shipped, patched(this.json, { seed }), log, 0, { ...mystery, workup }));
    if (opened && sameHandling) await this.store.seek(this.store.plan?.logEnd.time_min ?? 0);
    return opened;
  }

  /** The same scenario on another column, drawn from this number, with nothing done yet; kept results stay. */
  async freshColumn(drawn: number): Promise<boolean> {
    return this.given ? this.task.next() : this.begunOn({ seed: drawn % SEEDS });
  }

  /** The same scenario with these changes, with nothing done yet; kept results stay. */
  begunOn(changes: { readonly [key: string]: Json }): Promise<boolean> {
    const { kept, entries } = this.workUp.saved;
    const workup = { ...EMPTY_WORK_UP, kept, entries };
    return this.leaving(() => this.use(this.base, this.shipped, patched(this.json, changes), [], 0, { workup }));
  }

  /** Names the run on the page as an example from a class. */
  nameExample(words: string): void {
    this.example = { words, of: this.written };
  }

  /** Whose run is on the page and what it shows, if it was opened from a class; else empty. */
  @derived get exampleWords(): string {
    return this.example?.of !== undefined && this.example.of === this.written ? this.example.words : '';
  }

  setCoach(level: CoachLevel): void {
    this.coach = this.chosenCoach = level;
    remember(this.storage, COACH_KEY, level);
  }

  setSeeing(seeing: Seeing): void {
    this.seeing = seeing;
    remember(this.storage, SEEING_KEY, seeing);
  }

  /** Whether the run on the page is played with captions; any action of the reader ends that. */
  @derived get watching(): boolean {
    return this.watched !== undefined && this.watched === this.store.log;
  }

  /** One run of the procedure, to be watched; it is paused at first. Fetched when it is asked for. */
  async watchOne(): Promise<void> {
    const { toWatch } = await import('./run/watch-one.ts');
    if (await toWatch(this)) this.watched = this.store.log;
  }

  /** Whether the run is over; told to readers when that changes, not at every moment. */
  @derived get over(): boolean {
    return isOver(this.store);
  }

  /** Whether the run, or the try, has ended: then everything is shown. */
  @derived get allOpen(): boolean {
    return this.ended || this.given?.ended !== undefined || this.over;
  }

  /** Whether the lab of the run on the page is kept from its reader, because of hidden faults or of a hand-out. */
  @derived get labClosed(): boolean {
    return isHidden(this.mystery) || this.task.closesLab(this.given);
  }

  /** The reader's choice, as far as the scenario allows it before the end. */
  @derived get chosen(): Seeing {
    return seenAtMost(this.watching && this.seeing === 'eye' ? 'figure' : this.seeing, this.seeingMost);
  }

  /** How much of the run is shown. */
  @derived get sees(): Seeing {
    return this.allOpen ? 'forecast' : this.chosen;
  }

  /** The most that is shown before the end: by the scenario, and by what was handed out. */
  @derived get seeingMost(): Seeing {
    return seenAtMost(this.store.scenario?.seeing ?? 'forecast', this.given?.handOut.seeing ?? 'forecast');
  }

  setExaggerate(on: boolean): void {
    this.exaggerate = on;
  }

  /** Undefined when the run of a link is open; otherwise the reason why not, and nothing was changed. */
  private async openLink(text: string): Promise<string | undefined> {
    const link = await decodeLink(text);
    if (!link.ok) return link.message;
    const own = this.ownRun();
    if (!(await this.openHere(link.value))) return `link: ${inWords(this.issues)}`;
    this.unread = this.autosave.unread();
    if (own) this.putAside(own);
    if (this.hasBeside) this.say('The run of the link is open. Your own run is among the kept runs.');
    return undefined;
  }
}
