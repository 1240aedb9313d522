import { type ClassAnswer, type ClassForecast, classForecast, classTasks, forClass } from '../../sim/class/index.ts';
import type { Taken } from '../../sim/handed/index.ts';
import { own, parseJson, TEXT_MAX } from '../../sim/input/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { scenarioJson } from '../store/shipped/catalog.ts';
import { tracked } from '../store/tracked.ts';
import type { ClassReply } from './class-worker.ts';
import { workThrough } from './pool.ts';

// What an instructor has taken in, and what a class will see. Nothing is kept after the page is closed.

/** A file as it was chosen, dropped or pasted. */
export interface Given {
  readonly name: string;
  readonly text: string;
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
  private stopTaking = new AbortController();
  private stopForecast = new AbortController();

  /** Computes files again and adds them; a file replaces an earlier one of the same name. */
  async takeIn(files: readonly Given[]): Promise<void> {
    this.cancelTaking();
    const { signal } = this.stopTaking;
    this.taking = { done: 0, of: files.length };
    const work = await Promise.all(files.map(async ({ name, text }) => ({ do: 'take' as const, file: name, source: text, shipped: await shippedFor(text) })));
    if (signal.aborted) return;
    let done = 0;
    await workThrough(
      work,
      (piece, reply) => {
        done += 1;
        this.taking = { done, of: files.length };
        const taken = takenFrom(reply, files[piece].name);
        this.taken = [...this.taken.filter(({ file }) => file !== taken.file), taken].sort((a, b) => a.file.localeCompare(b.file, 'en', { numeric: true }));
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
  }

  /** So many groups of the lab, each on one lane. */
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

function takenFrom(reply: ClassReply, file: string): Taken {
  if (reply.ok && 'verdict' in reply.value) return reply.value;
  return { file, verdict: 'damaged', issues: [{ path: 'run', expected: 'a run that can be computed', received: reply.ok ? 'another answer' : reply.message }] };
}

/** JSON of the shipped scenario that a file names; undefined for any other file. */
async function shippedFor(text: string): Promise<unknown> {
  const parsed = text.length > TEXT_MAX ? undefined : parseJson(text, 'file');
  const named = parsed?.ok ? own(parsed.json, 'scenario') : undefined;
  return typeof named === 'string' ? scenarioJson(named) : undefined;
}
