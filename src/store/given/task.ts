import { effect } from '@preact/signals-core';
import { type HandOut, type Prediction, handOutMark } from '../../../sim/handed/index.ts';
import { inWords } from '../../../sim/input/index.ts';
import { SEED_MAX } from '../../../sim/math/random.ts';
import type { Json, SavedRun } from '../keep/saved.ts';
import { isWorthKeeping } from '../keep/shelf.ts';
import type { ColumnStore } from '../column-store.ts';
import type { Issue } from '../../../sim/terms/types.ts';
import { isOver } from '../over.ts';
import { type Given, isFixed, isOf } from './given.ts';
import { claimedOf } from './claimed.ts';
import { decodeHandOut } from './hand-out-link.ts';
import { openTries, type Tries } from './tries.ts';

/** What is needed of the session. */
interface Bench {
  readonly store: ColumnStore;
  given: Given | undefined;
  readonly issues: readonly Issue[];
  readonly runs: readonly { readonly run: SavedRun }[];
  ownRun(): SavedRun | undefined;
  openRun(run: SavedRun): Promise<boolean>;
  putAside(run: SavedRun): void;
  validPredictions(): readonly Prediction[];
  say(notice: string): void;
}

/** A hand-out and its tries in this browser. The try on the page is `session.given`. */
export class Task {
  private readonly session: Bench;
  private readonly tries: Tries;

  constructor(session: Bench, storage: Storage | undefined) {
    this.session = session;
    this.tries = openTries(storage);
    effect(() => {
      session.store.fixed = isFixed(session.given);
    });
    effect(() => {
      // A try counts from its first action.
      if (session.given && session.store.log.length > 0) this.tries.begin(handOutMark(session.given.handOut), session.given.attempt);
    });
    effect(() => {
      if (session.given && isOver(session.store)) this.end();
    });
  }

  /** Returns undefined when the hand-out is open, otherwise the reason why not. */
  async openLink(text: string): Promise<string | undefined> {
    const read = await decodeHandOut(text);
    return read.ok ? this.open(read.value) : read.message;
  }

  /** Goes on with a try that was begun in this browser, or else begins the next; the reader's own run is put aside. */
  async open(handOut: HandOut): Promise<string | undefined> {
    const { session } = this;
    const own = session.ownRun();
    const here = own !== undefined && isOf(own.given, handOut);
    if (here && session.store.plan) return undefined;
    const begun = here ? own : session.runs.findLast(({ run }) => isOf(run.given, handOut))?.run;
    const attempt = this.begun(handOut) + 1;
    if (!begun && attempt > handOut.tries)
      return `hand-out: expected at most ${handOut.tries} tries, received one more; all of them were begun in this browser`;
    if (!(await (begun ? session.openRun(begun) : this.begin(handOut, attempt)))) return `hand-out: ${inWords(session.issues)}`;
    if (here || !own) return undefined;
    session.putAside(own);
    if (isWorthKeeping(own)) session.say('The hand-out is open. Your own run is among the kept runs.');
    return undefined;
  }

  /** How many more tries may be begun. */
  left({ handOut, attempt }: Given): number {
    return Math.max(0, handOut.tries - Math.max(attempt, this.begun(handOut)));
  }

  /** Whether its lab, drawn in full, would tell what the rules keep back: its tries are not over, and less than the forecast may be seen before. */
  closesLab(given: Given | undefined): boolean {
    return given !== undefined && given.handOut.seeing !== 'forecast' && (given.ended === undefined || this.left(given) > 0);
  }

  /** The next try; the one on the page is put aside. False if there is none left. */
  async next(): Promise<boolean> {
    const { session } = this;
    const { given } = session;
    const left = given ? this.left(given) : 0;
    if (!given || left === 0) return false;
    return this.begin(given.handOut, given.handOut.tries - left + 1);
  }

  /** Ends the try: what was done so far counts, and everything is shown. */
  end(): void {
    const { session } = this;
    const { given } = session;
    const claimed = given && !given.ended ? claimedOf(session.store) : undefined;
    if (given && claimed) session.given = { ...given, ended: { log: session.store.log, claimed, predictions: session.validPredictions() } };
  }

  private begun(handOut: HandOut): number {
    return this.tries.begun(handOutMark(handOut));
  }

  private begin(handOut: HandOut, attempt: number): Promise<boolean> {
    const { base, differences, column, faults } = handOut;
    const seed = column === 'same' ? handOut.seed : crypto.getRandomValues(new Uint32Array(1))[0] % (SEED_MAX + 1);
    // It was read as an object of a JSON text.
    const hidden = faults === 'hidden' ? { mystery: {} } : {};
    return this.session.openRun({ base, differences: differences as Json, seed, log: [], given: { handOut, attempt, answers: [] }, ...hidden });
  }
}
