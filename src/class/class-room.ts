import { type ClassAnswer, type ClassForecast, classForecast, classTasks, forClass } from '../../sim/class/index.ts';
import { against, type HandOut, handedOutScenario, namedIn, type Origin, originOf, type Taken } from '../../sim/handed/index.ts';
import { inWords, own, parseJson, TEXT_MAX } from '../../sim/input/index.ts';
import type { Issue, Scenario } from '../../sim/terms/types.ts';
import { scenarioJson } from '../store/shipped/catalog.ts';
import { derived, tracked } from '../store/tracked.ts';
import type { ClassReply } from './class-worker.ts';
import { type Given, sorted } from './given-files.ts';
import { workThrough } from './pool.ts';

// What an instructor has taken in, and what a class will see. Nothing is kept after the page is closed.

/** What was handed out, with its scenario. */
export interface HandedOut {
  readonly handOut: HandOut;
  readonly scenario: Scenario;
}

/** A file, and how its run departs from what was handed out. */
export interface Held extends Taken {
  readonly apart: readonly Issue[];
  /** Undefined while nothing was handed out to compare with, and for files without a run. */
  readonly origin: Origin | undefined;
  /** Files with a run under its name, if they are more than tries were allowed; else undefined. */
  readonly often: Often | undefined;
  /** Who else handed in the same actions on the same column, though they are not the procedure's. */
  readonly sameAs: readonly string[];
  /** Questions with a choice that were handed out with it; undefined while that is not known. */
  readonly asked: number | undefined;
}

export interface Often {
  readonly times: number;
  readonly tries: number;
}

export interface Progress {
  readonly done: number;
  readonly of: number;
}

export class ClassRoom {
  @tracked taken: readonly Taken[] = [];
  /** Files that are still to be computed: those that wait their turn, or, after a cancel, those that were left. */
  @tracked waiting: readonly Given[] = [];
  @tracked forecast: ClassForecast | undefined;
  @tracked forecasting: Progress | undefined;
  @tracked failure = '';
  /** Runs are compared with it. */
  @tracked handedOut: HandedOut | undefined;
  /** Why what was handed out could not be used. */
  @tracked problem = '';
  private readonly texts = new Map<string, string>();
  @tracked private running: AbortController | undefined;
  @tracked private done = 0;
  private stopForecast = new AbortController();

  @derived get taking(): Progress | undefined {
    return this.running && { done: this.done, of: this.done + this.waiting.length };
  }

  @derived get held(): readonly Held[] {
    const { handedOut, taken } = this;
    return taken.map((one): Held => {
      if (!one.run) return { ...one, apart: [], origin: undefined, often: undefined, sameAs: [], asked: undefined };
      const origin = handedOut && originOf(one.run, handedOut.handOut);
      const own = origin === 'another' ? one.run.under?.tries : handedOut?.handOut.tries;
      const tries = own ?? one.run.under?.tries ?? 1;
      const times = timesNamed(one.run.who, taken);
      return {
        ...one,
        asked: origin === 'this' ? handedOut?.handOut.asked.length : undefined,
        origin,
        sameAs: sameActions(one, taken),
        often: times > tries ? { times, tries } : undefined,
        apart: handedOut ? against(one.run, handedOut.handOut, handedOut.scenario) : [],
      };
    });
  }

  /** Compares runs with what was handed out from now on. */
  async holdAgainst(handOut: HandOut): Promise<void> {
    const read = handedOutScenario(handOut, await scenarioJson(handOut.base));
    this.problem = read.ok ? '' : `What was handed out cannot be used: ${inWords(read.issues)}`;
    if (read.ok) this.handedOut = { handOut, scenario: read.scenario };
  }

  /** Compares runs with no hand-out: only with what they claim. */
  holdAgainstNothing(): void {
    this.handedOut = undefined;
    this.problem = '';
  }

  /** The text of a run that was taken in, by the name of its file. */
  textOf(file: string): string | undefined {
    return this.texts.get(file);
  }

  /** Computes runs again, after those that still wait, and adds them; a file replaces an earlier one of the same name. If there are several hand-outs, the last one counts. */
  async takeIn(given: readonly Given[]): Promise<void> {
    const { runs, handOuts, unread } = await sorted(given);
    for (const { name, text } of runs) this.texts.set(name, text);
    for (const { name, issue } of unread) this.add({ file: name, verdict: 'damaged', issues: [issue] });
    this.waiting = [...this.waiting, ...runs];
    const last = handOuts.at(-1);
    if (last) await this.holdAgainst(last);
    await this.takeWaiting();
  }

  /** Computes what waits, and what comes to wait meanwhile, unless that is being done already. */
  async takeWaiting(): Promise<void> {
    if (this.running) return;
    const running = new AbortController();
    this.running = running;
    this.done = 0;
    while (this.running === running && this.waiting.length > 0) await this.compute(this.waiting, running.signal);
    if (this.running === running) this.running = undefined;
  }

  private async compute(files: readonly Given[], signal: AbortSignal): Promise<void> {
    const work = await Promise.all(files.map(async ({ name, text }) => ({ do: 'take' as const, file: name, source: text, shipped: await shippedFor(text) })));
    await workThrough(
      work,
      (piece, reply) => {
        this.done += 1;
        this.waiting = this.waiting.filter((one) => one !== files[piece]);
        this.add(takenFrom(reply, files[piece].name));
      },
      signal,
    );
  }

  /** Stops; what is not computed goes on waiting. */
  cancelTaking(): void {
    this.running?.abort();
    this.running = undefined;
  }

  clear(): void {
    this.cancelTaking();
    this.taken = [];
    this.waiting = [];
    this.texts.clear();
  }

  private add(taken: Taken): void {
    this.taken = [...this.taken.filter(({ file }) => file !== taken.file), taken].sort((a, b) => a.file.localeCompare(b.file, 'en', { numeric: true }));
  }

  /** Computes this many groups of the lab, each on one lane. */
  async foresee(lab: Scenario, groups: number): Promise<void> {
    this.cancelForecast();
    const { signal } = this.stopForecast;
    const scenario = forClass(lab);
    const tasks = classTasks(groups);
    const answers: ClassAnswer[] = [];
    let done = 0;
    this.failure = '';
    this.forecasting = { done, of: tasks.length };
    await workThrough(
      tasks.map((task) => ({ do: 'group', scenario, task })),
      (piece, reply) => {
        done += 1;
        if (reply.ok && 'written' in reply.value) answers[piece] = reply.value;
        else this.failure = reply.ok ? '' : reply.message;
        this.forecasting = { done, of: tasks.length };
      },
      signal,
    );
    if (signal.aborted) return;
    const sound = tasks.flatMap((task, i) => (answers[i] ? [{ task, answer: answers[i] }] : []));
    this.forecast = classForecast(
      scenario,
      sound.map(({ task }) => task),
      sound.map(({ answer }) => answer),
    );
    this.forecasting = undefined;
  }

  cancelForecast(): void {
    this.stopForecast.abort();
    this.stopForecast = new AbortController();
    this.forecasting = undefined;
  }
}

/** Fewer actions apart from the procedure than this are no sign that one run is a copy of another: both follow what is written. A choice. */
const OWN_ACTIONS = 3;

function sameActions({ file, run }: Taken, taken: readonly Taken[]): string[] {
  if (!run || run.fromProcedure < OWN_ACTIONS) return [];
  const others = taken.flatMap((other) => (other.file !== file && other.run?.actions === run.actions ? [other.run.who] : []));
  return [...new Set(others.filter((who) => nameOf(who) !== nameOf(run.who)))];
}

function timesNamed(who: string, taken: readonly Taken[]): number {
  return taken.filter(({ run }) => run && nameOf(run.who) === nameOf(who)).length;
}

function takenFrom(reply: ClassReply, file: string): Taken {
  if (reply.ok && 'verdict' in reply.value) return reply.value;
  return { file, verdict: 'damaged', issues: [{ path: 'run', expected: 'a run that can be computed', received: reply.ok ? 'another answer' : reply.message }] };
}

/** JSON of the shipped scenario that a file names; undefined for any other file. */
async function shippedFor(text: string): Promise<unknown> {
  const parsed = text.length > TEXT_MAX ? undefined : parseJson(text, 'file');
  const { base } = namedIn(parsed?.ok ? own(parsed.json, 'scenario') : undefined);
  return base === undefined ? undefined : scenarioJson(base);
}

/** Names are compared without regard to capitals and to spaces around them. */
export function nameOf(who: string): string {
  return who.trim().toLowerCase();
}
