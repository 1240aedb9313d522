import { batch } from '@preact/signals-core';
import { emptyBench, valueAt, withNameOfAcid, withValueAt } from '../../sim/lab/index.ts';
import { readScenario } from '../../sim/input/index.ts';
import type { Issue, Scenario } from '../../sim/terms/types.ts';
import { EMPTY_BENCH, FIRST_SCENARIO, scenarioJson } from '../store/shipped/catalog.ts';
import { isHidden } from '../store/keep/mystery.ts';
import { differences } from '../store/keep/difference.ts';
import type { Json, Outcome, SavedRun } from '../store/keep/saved.ts';
import type { Session } from '../store/session.ts';
import { derived, tracked } from '../store/tracked.ts';
import { withoutNote } from './fit/fitted-scenario.ts';
import { keepLab, keptLab } from './kept.ts';
import { type Lab, labOf, savedOf } from './lab.ts';

const UNDO_MAX = 100;
const FIRST: Lab = { base: EMPTY_BENCH, start: emptyBench() as Json, json: emptyBench() as Json, hidden: false };

/** The lab that is being edited, with its earlier steps for undo. It is kept in the browser and is separate from the run on the bench. */
export class LabDraft {
  @tracked lab: Lab = FIRST;
  /** Actions of the procedure that the bench refuses when it is run, by their path. */
  @tracked runIssues: readonly Issue[] = [];
  /** False until the kept lab has been read; nothing is shown before that. */
  @tracked ready = false;
  @tracked private past: readonly Lab[] = [];
  @tracked private future: readonly Lab[] = [];
  private readonly storage: Storage | undefined;

  constructor(storage: Storage | undefined) {
    this.storage = storage;
  }

  /** Goes on with the kept lab, or else begins with the open scenario. Returns a message for the reader, empty if there is none. */
  async begin(session: Session): Promise<string> {
    const kept = await keptLab(this.storage);
    const labs = kept.ok ? kept.value : [];
    const last = labs.at(-1) ?? (await this.onBench(session));
    batch(() => {
      this.lab = last;
      this.past = labs.slice(0, -1);
      this.ready = true;
    });
    return kept.ok ? '' : kept.message;
  }

  @derived get json(): Json {
    return this.lab.json;
  }

  @derived private get reading() {
    return readScenario(this.json, this.lab.base);
  }

  /** The scenario; undefined while something is not valid. */
  @derived get scenario(): Scenario | undefined {
    return this.reading.ok ? this.reading.scenario : undefined;
  }

  /** Everything that is not valid: what reading the scenario reports and, if it can be read, what the run reports. */
  @derived get issues(): readonly Issue[] {
    return this.reading.ok ? this.runIssues : this.reading.issues;
  }

  @derived get canUndo(): boolean {
    return this.past.length > 0;
  }

  @derived get canRedo(): boolean {
    return this.future.length > 0;
  }

  /** What is not valid at a path, in words; empty if all is well. */
  problemAt(path: string): string {
    return this.issues
      .filter((issue) => issue.path === path)
      .map(({ expected, received }) => `expected ${expected}; received ${received}`)
      .join('. ');
  }

  /** Sets one value; undefined leaves it to the defaults. The value then no longer counts as fitted, and a bottle named by its acid is named anew. */
  set(path: string, value: unknown): void {
    if (JSON.stringify(valueAt(this.json, path)) === JSON.stringify(value)) return;
    this.change(withoutNote(withValueAt(withNameOfAcid(this.json, path, value), path, value), path));
  }

  /** Sets the whole JSON: several values in one step. */
  change(json: unknown): void {
    // Callers build it from JSON values only.
    this.step({ ...this.lab, json: json as Json });
  }

  setHidden(hidden: boolean): void {
    this.step({ ...this.lab, hidden });
  }

  /** Takes one value from another JSON, such as that of the starting scenario. */
  putBack(path: string, from: unknown): void {
    this.set(path, valueAt(from, path));
  }

  undo(): void {
    const lab = this.past.at(-1);
    if (lab) this.travel(lab, this.past.slice(0, -1), [...this.future, this.lab]);
  }

  redo(): void {
    const lab = this.future.at(-1);
    if (lab) this.travel(lab, [...this.past, this.lab], this.future.slice(0, -1));
  }

  /** Starts again from a shipped scenario or an empty bench; the lab before it is one undo away. */
  async startFrom(id: string): Promise<Outcome<undefined>> {
    return this.open({ base: id, differences: {}, seed: Number.NaN, log: [] });
  }

  /** Takes over the scenario of a run from a file, a link or the bench. On any problem nothing changes. */
  async open(run: SavedRun): Promise<Outcome<undefined>> {
    const lab = await labOf(run);
    if (!lab.ok) return lab;
    this.step(lab.value);
    return { ok: true, value: undefined };
  }

  async openBench(session: Session): Promise<Outcome<undefined>> {
    if (isHidden(session.mystery)) return { ok: false, message: 'lab: the faults of the run on the bench are hidden; name them there first' };
    if (session.labClosed) return { ok: false, message: 'lab: what was handed out opens here when its tries are over' };
    const { shipped, json } = session;
    return this.open({ ...session.saved(), differences: differences(shipped, asWritten(json, shipped)), seed: Number.NaN });
  }

  /** The form in which it is kept and passed on between instructors. */
  saved(): SavedRun {
    return savedOf(this.lab);
  }

  /**
   * As students get it: a fresh run. If they have to find the faults, it is written as changes of the first scenario, since the id of a
   * demonstration would name the fault.
   */
  async forStudents(): Promise<SavedRun> {
    const { lab } = this;
    if (!lab.hidden) return savedOf(lab);
    const start = (await scenarioJson(FIRST_SCENARIO)) ?? {};
    return savedOf({ ...lab, base: FIRST_SCENARIO, start });
  }

  private async onBench(session: Session): Promise<Lab> {
    const { base, shipped, json } = session;
    if (!session.labClosed && session.written) return { base, start: shipped, json: asWritten(json, shipped), hidden: session.mystery !== undefined };
    // A shipped lesson may be the one that was handed out.
    if (!isHidden(session.mystery)) return FIRST;
    const first = await labOf({ base: FIRST_SCENARIO, differences: {}, seed: Number.NaN, log: [] });
    return first.ok ? first.value : FIRST;
  }

  private step(lab: Lab): void {
    this.travel(lab, [...this.past, this.lab].slice(-UNDO_MAX), []);
  }

  private travel(lab: Lab, past: readonly Lab[], future: readonly Lab[]): void {
    batch(() => {
      this.lab = lab;
      this.past = past;
      this.future = future;
      this.runIssues = [];
    });
    keepLab(this.storage, [...past, lab]);
  }
}

/**
 * The lab of a run. The number of the column belongs to a try, and an empty tube to how a run is begun on the bench: a procedure that
 * packs nothing starts with a bed.
 */
function asWritten(json: Json, shipped: Json): Json {
  const lab = withValueAt(json, 'seed', valueAt(shipped, 'seed'));
  const procedure = valueAt(lab, 'procedure');
  const packs = Array.isArray(procedure) && procedure.some((action) => valueAt(action, 'do') === 'pack');
  return (packs ? lab : withValueAt(lab, 'bench.packed', valueAt(shipped, 'bench.packed'))) as Json;
}
