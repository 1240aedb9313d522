import { bedVolumeOf } from '../terms/geometry.ts';
import { AT, inReceivers } from '../column/index.ts';
import type { IonId } from '../terms/ions.ts';
import type { Parting } from '../chemistry/index.ts';
import { type BedVolumes, bedVolumesOf, candidates, closest, type Group, merged, STEP_MAX_BV } from './acids.ts';
import { bottleName, loadingLog, oneLane, type ProgrammeStep, receiverOf, type Sample, sampleOf, stepLog } from './programme.ts';
import { receiverLabels } from '../history/index.ts';
import { advance, type Checkpoint, checkpointOf, restoreTo, type Run, runOf, runWhole } from '../run/index.ts';
import type { Action, Liquid, Log, Scenario } from '../terms/types.ts';

// Finds a programme of falling or rising HCl strengths that brings every metal of a sample into its own receiver: tries acids
// in the model, step by step, on one even lane, and goes back a step where no acid works.

export interface SequenceGoal {
  /** Least share of its own metal among the metals of a receiver. */
  readonly purity: number;
  /** Least share of a metal that its receiver must hold. */
  readonly recovered: number;
}

export interface SequenceStep {
  readonly HCl_M: number;
  readonly volume_mL: number;
  readonly receiver: string;
  /** What this step brings out; more than one metal when they could not be separated. */
  readonly ions: readonly IonId[];
  /** In the whole programme run at once: share of these among the metals in the receiver, and least share of one collected. */
  readonly purity: number;
  readonly recovered: number;
}

export interface Sequence {
  readonly steps: readonly SequenceStep[];
  /** Whether every metal has a receiver of its own and the goal is met. */
  readonly parted: boolean;
  /** Pairs that had to stay together, with the best any acid can do for them. */
  readonly together: readonly Parting[];
  readonly liquids: Readonly<Record<string, Liquid>>;
  readonly log: Log;
  readonly trials: number;
  readonly delivered_mL: number;
  readonly time_min: number;
}

export interface Progress {
  readonly trials: number;
  /** Metals that have a receiver so far. */
  readonly placed: readonly (readonly IonId[])[];
  readonly HCl_M: number;
}

/** Runs of the trial column in all. */
const TRIALS_MAX = 80;
/** Shares of the tolerated impurity: a step goes on until no more than this of its metal is left, or this much of another appears. */
const LEFT_OVER = 0.25;
/** Steps of the model between looks. */
const LOOK_STEPS = 12;

/** The programme for the metals of the scenario's sample; undefined when no liquid of it holds any. */
export function findSequence(
  scenario: Scenario,
  goal: SequenceGoal,
  onProgress: (progress: Progress) => void = () => undefined,
  alive: () => void = () => undefined,
): Sequence | undefined {
  const sample = sampleOf(scenario);
  if (!sample) return undefined;
  const search = new Search(scenario, sample, goal, onProgress, alive);
  let groups: Group[] = sample.ions.map((ion) => [ion]);
  const together: Parting[] = [];
  for (;;) {
    const found = search.programme(groups);
    if (found || groups.length === 1) return search.written(found ?? [], together);
    const pair = closest(search.scenario, groups);
    together.push(pair);
    groups = merged(groups, pair.first, pair.second);
  }
}

/** A state of the trial column, and the part of the log that led to it. */
interface Place {
  readonly point: Checkpoint;
  readonly log: Log;
}

class Search {
  trials = 0;
  readonly scenario: Scenario;
  private readonly sample: Sample;
  private readonly goal: SequenceGoal;
  private readonly onProgress: (progress: Progress) => void;
  private readonly alive: () => void;
  private readonly run: Run;
  private readonly bed_mL: number;
  private readonly holdup_mL: number;
  private readonly volumes: BedVolumes;

  constructor(scenario: Scenario, sample: Sample, goal: SequenceGoal, onProgress: (progress: Progress) => void, alive: () => void) {
    this.scenario = oneLane(scenario, sample);
    this.sample = sample;
    this.goal = goal;
    this.onProgress = onProgress;
    this.alive = alive;
    this.run = runOf(this.scenario, []);
    this.bed_mL = bedVolumeOf(scenario.values);
    this.holdup_mL = this.bed_mL * scenario.values['bed.porosity'];
    this.volumes = bedVolumesOf(scenario, sample.ions);
  }

  /** Steps that bring out every group, or undefined. */
  programme(groups: readonly Group[]): ProgrammeStep[] | undefined {
    const start: Place = { point: checkpointOf(this.run), log: [] };
    const found = this.continued(start, groups, []);
    restoreTo(this.run, start.point);
    return found;
  }

  /** The programme as a log for the bench, with what its receivers hold in one run of it. */
  written(placed: readonly ProgrammeStep[], together: readonly Parting[]): Sequence {
    const steps = placed.length > 0 ? placed : [{ HCl_M: 9, volume_mL: 2 * this.bed_mL, group: this.sample.ions }];
    const log: Action[] = [
      ...loadingLog(this.scenario, this.sample, steps[0]),
      ...steps.flatMap((step, i) => stepLog(this.scenario, step, i === 0)),
      { do: 'clamp', open_percent: 0 },
    ];
    const run = runWhole(this.scenario, log, this.alive);
    const written = steps.map((step) => this.judged(run, step));
    const used = new Set(log.flatMap((action) => (action.do === 'pour' ? [action.liquid] : [])));
    return {
      steps: written,
      parted: together.length === 0 && written.every(({ purity, recovered }) => purity >= this.goal.purity && recovered >= this.goal.recovered),
      together,
      liquids: Object.fromEntries(Object.entries(this.scenario.liquids).filter(([name]) => used.has(name))),
      log,
      trials: this.trials,
      delivered_mL: run.bed.scalar[AT.delivered],
      time_min: run.bed.scalar[AT.time],
    };
  }

  private continued(from: Place, left: readonly Group[], placed: readonly ProgrammeStep[]): ProgrammeStep[] | undefined {
    if (left.length === 0) return [...placed];
    for (const { HCl_M, group } of candidates(this.volumes, left)) {
      if (this.trials >= TRIALS_MAX) return undefined;
      this.trials += 1;
      this.onProgress({ trials: this.trials, placed: placed.map((step) => step.group), HCl_M });
      const volume_mL = this.volumeFor(from, HCl_M, group, left, placed.length === 0);
      if (volume_mL === undefined) continue;
      const step = { HCl_M, volume_mL, group };
      const found = this.continued(
        this.after(from, step, placed.length === 0),
        left.filter((other) => other !== group),
        [...placed, step],
      );
      if (found) return found;
    }
    return undefined;
  }

  /** mL of this acid that bring the group out while the others stay; undefined when it fails. */
  private volumeFor(from: Place, HCl_M: number, group: Group, left: readonly Group[], first: boolean): number | undefined {
    const { run } = this;
    this.goBack(from);
    if (first) this.act(loadingLog(this.scenario, this.sample, { HCl_M, group }));
    const others = left.filter((other) => other !== group).flat();
    const before = this.delivered([...group, ...others]);
    const start = run.bed.scalar[AT.delivered];
    run.log.push(
      { do: 'pour', liquid: bottleName(HCl_M), volume_mL: STEP_MAX_BV * this.bed_mL, hold_level: true },
      { do: 'wait', until: { more_mL: STEP_MAX_BV * this.bed_mL } },
    );
    const spoil = (1 - this.goal.purity) * LEFT_OVER;
    for (;;) {
      const ended = advance(run, { endOfLog: true, steps: LOOK_STEPS });
      this.alive();
      const out = this.delivered([...group, ...others]).map((amount, k) => amount - before[k]);
      const recovered = Math.min(...group.map((ion, k) => out[k] / this.loaded(ion)));
      const strangers = out.slice(group.length).reduce((sum, amount) => sum + amount, 0);
      const own = out.slice(0, group.length).reduce((sum, amount) => sum + amount, 0);
      const spoiled = strangers > spoil * Math.max(own, 1e-12);
      if (recovered >= 1 - spoil || spoiled || ended) {
        const good = recovered >= this.goal.recovered && strangers <= (1 - this.goal.purity) * own;
        // The next acid pushes the last of this one out; behind the last step there is none.
        const volume = run.bed.scalar[AT.delivered] - start - (others.length > 0 ? this.holdup_mL : 0);
        return good ? Math.max(0.2 * this.bed_mL, Math.ceil(volume * 10) / 10) : undefined;
      }
    }
  }

  private after(from: Place, step: ProgrammeStep, first: boolean): Place {
    this.goBack(from);
    const log = [...(first ? loadingLog(this.scenario, this.sample, step) : []), ...stepLog(this.scenario, step, first)];
    this.act(log);
    return { point: checkpointOf(this.run), log: [...from.log, ...log] };
  }

  private act(actions: readonly Action[]): void {
    this.run.log.push(...actions);
    while (!advance(this.run, { endOfLog: true, steps: LOOK_STEPS })) this.alive();
  }

  private goBack({ point, log }: Place): void {
    restoreTo(this.run, point);
    this.run.log.splice(0, this.run.log.length, ...log);
  }

  private delivered(ions: readonly IonId[]): number[] {
    return ions.map((ion) => inReceivers(this.run.bed, this.scenario.ions.indexOf(ion) + 1));
  }

  private loaded(ion: IonId): number {
    return (this.scenario.liquids[this.sample.name].ions[ion] ?? 0) * this.sample.volume_mL;
  }

  private judged(run: Run, { HCl_M, volume_mL, group }: ProgrammeStep): SequenceStep {
    const receiver = receiverOf(group);
    const slot = receiverLabels(run.events).indexOf(receiver);
    const held = this.sample.ions.map((ion) => run.bed.receivers[slot * (run.bed.components + 1) + 2 + this.scenario.ions.indexOf(ion)]);
    const all = held.reduce((sum, amount) => sum + amount, 0);
    const own = group.map((ion) => held[this.sample.ions.indexOf(ion)]);
    return {
      HCl_M,
      volume_mL,
      receiver,
      ions: group,
      purity: all > 0 ? own.reduce((sum, amount) => sum + amount, 0) / all : 0,
      recovered: Math.min(...group.map((ion, k) => own[k] / this.loaded(ion))),
    };
  }
}
