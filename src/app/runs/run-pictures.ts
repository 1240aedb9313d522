import { drawn } from '../../../sim/column/index.ts';
import { imposed } from '../../../sim/faults/index.ts';
import { type FractionTargets, lessonOf, type Lesson, type Plan, progressOf, targetsOf } from '../../../sim/history/index.ts';
import { readLog, readScenario } from '../../../sim/input/index.ts';
import { seenAtMost, type Seeing } from '../../../sim/terms/seeing.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { scenarioJson } from '../../store/shipped/catalog.ts';
import { patched } from '../../store/keep/difference.ts';
import type { SavedRun } from '../../store/keep/saved.ts';
import { idOf, type KeptRun } from '../../store/keep/shelf.ts';
import { wasOver } from '../../store/over.ts';
import type { ModelThread } from '../../store/threads/model-thread.ts';
import { tracked } from '../../store/tracked.ts';
import { type RunPicture, runPicture } from './run-picture.ts';

/** A kept run worked out again. */
export interface ToldRun {
  readonly title: string;
  readonly picture: RunPicture;
  /** Undefined for a run that is not over: it is still to be judged. */
  readonly lesson: Lesson | undefined;
  readonly targets: FractionTargets;
  readonly over: boolean;
}

/** Pictures and figures of kept runs, each worked out once from its scenario and log, in a thread of its own. */
export class RunPictures {
  @tracked told: ReadonlyMap<string, ToldRun> = new Map();
  /** Runs that cannot be worked out any more, and why. */
  @tracked failed: ReadonlyMap<string, string> = new Map();
  private readonly makeThread: () => ModelThread;
  private thread: ModelThread | undefined;

  constructor(makeThread: () => ModelThread) {
    this.makeThread = makeThread;
  }

  /** Works out those that are not there yet, one after the other. */
  async tell(runs: readonly Pick<KeptRun, 'run'>[], seeing: Seeing): Promise<void> {
    this.stop();
    const thread = this.makeThread();
    this.thread = thread;
    for (const { run } of runs) {
      const key = keyOf(run);
      if (this.told.has(key) || this.failed.has(key)) continue;
      try {
        const told = await toldRun(thread, run, seeing);
        if (this.thread !== thread) return;
        this.told = new Map([...this.told, [key, told]]);
      } catch (error) {
        if (this.thread !== thread) return;
        this.failed = new Map([...this.failed, [key, error instanceof Error ? error.message : String(error)]]);
      }
    }
    this.stop();
  }

  stop(): void {
    this.thread?.close();
    this.thread = undefined;
  }
}

/** Of a run and how far it was played. */
export function keyOf(run: SavedRun): string {
  return `${idOf(run)} ${run.now_min ?? 0}`;
}

async function toldRun(thread: ModelThread, run: SavedRun, seeing: Seeing): Promise<ToldRun> {
  const scenario = await scenarioOf(run);
  const read = readLog(run.log, scenario);
  if (!read.ok) throw new Error(read.issues.map(({ path, expected, received }) => `${path}: expected ${expected}, received ${received}`).join('; '));
  const plan = await thread.open(imposed(drawn(scenario)), read.log);
  const now = run.now_min ?? 0;
  const targets = targetsOf(scenario);
  const over = wasOver(scenario, plan, await thread.moment(now), now);
  const open = over || seenAtMost(seeing, scenario.seeing ?? 'forecast') !== 'eye';
  return {
    title: scenario.title,
    picture: runPicture(plan, targets, now, open),
    lesson: over ? lessonFor(scenario, plan, targets) : undefined,
    targets,
    over,
  };
}

function lessonFor(scenario: Scenario, plan: Plan, targets: FractionTargets): Lesson {
  return lessonOf(plan, targets, progressOf(scenario, plan.events).eluent_mL);
}

async function scenarioOf({ base, differences, seed }: SavedRun): Promise<Scenario> {
  const shipped = await scenarioJson(base);
  if (shipped === undefined) throw new Error(`scenario: expected one that ships with the page, received ${base}`);
  const read = readScenario(patched(patched(shipped, differences), { seed }), base);
  if (!read.ok) throw new Error(read.issues.map(({ path, expected, received }) => `${path}: expected ${expected}, received ${received}`).join('; '));
  return read.scenario;
}
