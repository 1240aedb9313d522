import { type ClassAnswer, type ClassForecast, classForecast, classTasks, forClass } from '../../sim/class/index.ts';
import { against, type HandOut, handedOutScenario, namedIn, type Taken } from '../../sim/handed/index.ts';
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
  /** Who else handed in the same actions on the same column, though they are not the procedure's. */
  readonly sameAs: readonly string[];
  /** Questions with a choice that were handed out; undefined while that is not known. */
  readonly asked: number | undefined;
}

export interface Progress {
  readonly done: number;
  readonly of: number;
}

export class ClassRoom {
  @tracked taken: readonly Taken[] = [];
  @tracked taking: Progress | undefined;
  @tracked forecast: ClassForecast | undefined;
  @tracked forecasting: Progress | undefined;
  @tracked failure = '';
  /** Runs are compared with it. */
  @tracked handedOut: HandedOut | undefined;
  /** Why what was handed out could not be used. */
  @tracked problem = '';
  private readonly texts = new Map<string, string>();
  private stopTaking = new AbortController();
  private stopForecast = new AbortController();

  @derived get held(): readonly Held[] {
    const { handedOut, taken } = this;
    const names = taken.flatMap(({ run }) => (run ? [nameOf(run.who)] : []));
    return taken.map((one): Held => {
      const asked = handedOut?.handOut.asked.length;
      if (!one.run) return { ...one, apart: [], sameAs: [], asked };
      const name = nameOf(one.run.who);
      const times = names.filter((other) => other === name).length;
      const again = times > 1 ? [{ path: 'name', expected: 'one run of each', received: `${times} of “${one.run.who}”` }] : [];
      return {
        ...one,
        asked,
        sameAs: sameActions(one, taken),
        apart: [...(handedOut ? against(one.run, handedOut.handOut, handedOut.scenario) : []), ...again],
      };
    });
  }

  /** Compares runs with what was handed out from now on. */
  async holdAgainst(handOut: HandOut): Promise<void> {
    const read = handedOutScenario(handOut, await scenarioJson(handOut.base));
    this.problem = read.ok ? '' : `What was handed out cannot be used: ${inWords(read.issues)}`;
    if (read.ok) this.handedOut = { handOut, scenario: read.scenario };
  }

  /** The text of a run that was taken in, by the name of its file. */
  textOf(file: string): string | undefined {
    return this.texts.get(file);
  }

  /** Computes runs again and adds them; a file replaces an earlier one of the same name. If there are several hand-outs, the last one counts. */
  async takeIn(given: readonly Given[]): Promise<void> {
    this.cancelTaking();
    const { signal } = this.stopTaking;
    const { runs: files, handOuts, unread } = await sorted(given);
    const last = handOuts.at(-1);
    if (last) await this.holdAgainst(last);
    if (signal.aborted) return;
    for (const { name, text } of files) this.texts.set(name, text);
    for (const { name, issue } of unread) this.add({ file: name, verdict: 'damaged', issues: [issue] });
    if (files.length === 0) return;
    this.taking = { done: 0, of: files.length };
    const work = await Promise.all(files.map(async ({ name, text }) => ({ do: 'take' as const, file: name, source: text, shipped: await shippedFor(text) })));
    if (signal.aborted) return;
    let done = 0;
    await workThrough(
      work,
      (piece, reply) => {
        done += 1;
        this.taking = { done, of: files.length };
        this.add(takenFrom(reply, files[piece].name));
      },
      signal,
    );
    if (!signal.aborted) this.taking = undefined;
  }

  cancelTaking(): void {
    this.stopTaking.abort();
    this.stopTaking = new AbortController();
    this.taking = undefined;
  }

  clear(): void {
    this.cancelTaking();
    this.taken = [];
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

function nameOf(who: string): string {
  return who.trim().toLowerCase();
}
