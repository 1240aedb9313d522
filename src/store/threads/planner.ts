import { type Ails, ailsOf } from '../../../sim/bench/index.ts';
import { AT, type Bed, bedLengthOf } from '../../../sim/column/index.ts';
import { flowInto, levelOf } from '../../../sim/flow/index.ts';
import { type Plan, receiverLabels, type Results, type RunEvent, trimmed } from '../../../sim/history/index.ts';
import { advance, advanceAlive, type Checkpoint, checkpointOf, restoreTo, resultsOf, type Run, runOf } from '../../../sim/run/index.ts';
import type { Action, Log, Scenario } from '../../../sim/terms/types.ts';

// Keeps the whole run of a log, past and forecast, and recomputes only what a change of the log affects.

/** The column at one moment, for the glass and the read-outs. Cell arrays as in `Bed`. */
export interface Moment {
  readonly time_min: number;
  readonly delivered_mL: number;
  readonly flow: number;
  readonly level_cm: number;
  /** Height of the resin above its support now: it shrinks in acid and swells in water. */
  readonly bed_cm: number;
  /** Time until slurry that was poured has settled. */
  readonly settling_min: number;
  readonly clampOpen: number;
  readonly receiver: number;
  /** Actions of the log taken so far. */
  readonly entry: number;
  readonly head: Float64Array;
  readonly headVolume: number;
  readonly tip: Float64Array;
  readonly receivers: Float64Array;
  readonly pore: Float64Array;
  readonly sorbed: Float64Array;
  readonly still: Float64Array;
  readonly gas: Float64Array;
  readonly resinShare: Float64Array;
  /** The most of these shares. */
  readonly fullest: number;
  readonly drained: Float64Array;
  readonly ails: Ails;
  readonly velocity: Float64Array;
  readonly events: readonly RunEvent[];
  readonly results: Results;
}

interface Kept {
  readonly time: number;
  readonly delivered: number;
  readonly entry: number;
  /** Taken just when the entry before it was done, so it does not depend on the next entry. */
  readonly arrival: boolean;
  readonly point: Checkpoint;
}

/** Delivered volume between kept states, mL. */
const KEEP_EVERY_ML = 1;
/** Steps between looks at the log's progress. */
const STRIDE_STEPS = 16;
/** Longest model time computed beyond the log while liquid still runs, min. */
const BEYOND_MIN = 120;

export class Planner {
  readonly scenario: Scenario;
  private readonly run: Run;
  private readonly live: Run;
  private kept: Kept[] = [];
  private fresh = false;
  private coarse: Planner | undefined;
  private readonly alive: () => void;

  /** `alive` is called repeatedly while a run is computed. */
  constructor(scenario: Scenario, alive: () => void = () => undefined) {
    this.scenario = scenario;
    this.alive = alive;
    this.run = runOf(scenario, []);
    this.live = runOf(scenario, []);
    this.keep(true);
  }

  /** The whole run of this log, recomputed from the last state that it shares with the log before. */
  plan(log: Log): Plan {
    const start = this.sharedState(log);
    const { run } = this;
    restoreTo(run, start.point);
    run.log.length = 0;
    run.log.push(...log);
    this.kept = this.kept.slice(0, this.kept.indexOf(start) + 1);
    this.fresh = false;
    this.runLog();
    const s = run.bed.scalar;
    const logEnd = { time_min: s[AT.time], delivered_mL: s[AT.delivered] };
    const results = resultsOf(run);
    this.runDry(logEnd.time_min);
    return { ...this.drawn(), logEnd, results, recomputed_min: s[AT.time] - start.time };
  }

  /** The run of this log along one lane, for a picture while a handle is dragged; it does not affect `plan` and `moment`. */
  rough(log: Log): Plan {
    const { scenario } = this;
    this.coarse ??= new Planner({ ...scenario, values: { ...scenario.values, 'bed.lanes': 1 } }, this.alive);
    return this.coarse.plan(log);
  }

  /** The column at this model time: the first step that ends at or after it. */
  moment(time_min: number): Moment {
    const { live, run } = this;
    const before = this.keptBefore(time_min);
    const now = live.bed.scalar[AT.time];
    if (!this.fresh || now > time_min || before.time > now) {
      restoreTo(live, before.point);
      live.events.splice(0, live.events.length, ...run.events.slice(0, before.point.events));
      live.log.splice(0, live.log.length, ...run.log);
      this.fresh = true;
    }
    live.record.count = 0;
    advanceAlive(live, { time_min }, this.alive);
    return momentOf(live);
  }

  private runLog(): void {
    const s = this.run.bed.scalar;
    let entry = s[AT.entry];
    let next = s[AT.delivered] + KEEP_EVERY_ML;
    while (!advance(this.run, { endOfLog: true, steps: STRIDE_STEPS })) {
      this.alive();
      if (s[AT.entry] === entry && s[AT.delivered] < next) continue;
      entry = s[AT.entry];
      next = s[AT.delivered] + KEEP_EVERY_ML;
      this.keep(false);
    }
    this.keep(false);
  }

  /** Lets the liquid above the bed run out after the log, so that the figure shows what comes if nothing more is done. */
  private runDry(from: number): void {
    const s = this.run.bed.scalar;
    let next = s[AT.delivered] + KEEP_EVERY_ML;
    while (s[AT.time] < from + BEYOND_MIN) {
      advance(this.run, { time_min: from + BEYOND_MIN, steps: STRIDE_STEPS });
      this.alive();
      if (s[AT.flow] <= 0 || s[AT.ended] > 0) return;
      if (s[AT.delivered] < next) continue;
      next = s[AT.delivered] + KEEP_EVERY_ML;
      this.keep(false);
    }
  }

  private keep(arrival: boolean): void {
    const s = this.run.bed.scalar;
    this.kept.push({ time: s[AT.time], delivered: s[AT.delivered], entry: s[AT.entry], arrival, point: checkpointOf(this.run) });
  }

  private keptBefore(time: number): Kept {
    return this.kept.findLast((kept) => kept.time <= time) ?? this.kept[0];
  }

  private sharedState(log: Log): Kept {
    const old = this.run.log;
    let shared = 0;
    while (shared < log.length && shared < old.length && JSON.stringify(log[shared]) === JSON.stringify(old[shared])) shared++;
    const ahead: Action | undefined = log[shared];
    return this.kept.findLast((kept) => kept.entry < shared || (kept.entry === shared && (kept.arrival || liesAhead(ahead, kept)))) ?? this.kept[0];
  }

  private drawn(): Omit<Plan, 'logEnd' | 'results' | 'recomputed_min'> {
    const { record, events, log, column } = this.run;
    return { ...trimmed(record), log: [...log], events: [...events], labels: receiverLabels(events), length_cm: column.length };
  }
}

/** Whether a kept state does not depend on a changed action: the action is triggered later, by time or volume alone. */
function liesAhead(action: Action | undefined, kept: Kept): boolean {
  if (action === undefined) return false;
  if (action.at_min !== undefined) return action.at_min >= kept.time;
  return action.at_mL !== undefined && action.at_mL > kept.delivered;
}

/** mL/min. The state keeps the flow of the last step, which no pour and no turn of the clamp since then has changed. */
function flowNow({ bed, column }: Run): number {
  const s = bed.scalar;
  if (s[AT.clampOpen] <= 0) return 0;
  return s[AT.headVolume] > 0 ? flowInto(bed, column, levelOf(bed, column)) : s[AT.flow];
}

function momentOf(run: Run): Moment {
  const bed: Bed = run.bed;
  const s = bed.scalar;
  return {
    time_min: s[AT.time],
    delivered_mL: s[AT.delivered],
    flow: flowNow(run),
    level_cm: s[AT.headVolume] / run.column.section,
    bed_cm: bedLengthOf(bed, run.column),
    settling_min: Math.max(0, s[AT.settledAt] - s[AT.time]),
    clampOpen: s[AT.clampOpen],
    receiver: s[AT.receiver],
    entry: s[AT.entry],
    head: bed.head.slice(),
    headVolume: s[AT.headVolume],
    tip: bed.tip.slice(),
    receivers: bed.receivers.slice(0, s[AT.receivers] * (bed.components + 1)),
    pore: bed.pore.slice(),
    sorbed: bed.sorbed.slice(),
    still: bed.still.slice(),
    gas: bed.gas.slice(),
    resinShare: bed.resinShare.slice(),
    fullest: bed.resinShare.reduce((most, share) => Math.max(most, share), 0),
    drained: bed.drained.slice(),
    ails: ailsOf(bed, run.column),
    velocity: bed.velocity.slice(),
    events: [...run.events],
    results: resultsOf(run),
  };
}
