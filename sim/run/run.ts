// A run is data: scenario + log + seed. The loop here takes the log's actions when they are due and steps in between.
import { AT, checkpoint, columnOf, drawn, fluxFor, ledgerError, liquidOf, packedBed, restore } from '../column/index.ts';
import { decimalsApart } from '../math/decimals.ts';
import { attempt, fumedAcid } from '../bench/index.ts';
import { impose } from '../flaws/index.ts';
import { imposed } from '../faults/index.ts';
import { isDrained } from '../flow/index.ts';
import { recordFor, recordInto, type RunEvent } from '../history/index.ts';
import { limitsOf, takeDue } from './due.ts';
import { note, type Run } from './state.ts';
import { step } from './step.ts';
import { endOf, frameSpacing, stillSpacing, workOf } from './bounds.ts';
import type { Action, Log, Scenario } from '../terms/types.ts';

export type { Run };

/** A point of a run to go back to. */
export interface Checkpoint {
  readonly state: ArrayBuffer;
  readonly frames: number;
  readonly events: number;
}

/** Beginning of the note that a run adds when air first enters its bed. */
export const AIR_ENTERS = 'air enters the bed';
/** How the note begins that a run makes when its bed holds its liquid. */
export const HELD = 'liquid at bed top: nothing flows until more is poured';

/** How far `advance` goes; it stops at whichever comes first. */
export interface Target {
  /** Model time, min; the step that reaches it is done whole. */
  readonly time_min?: number;
  /** Stop when every action of the log has been taken. */
  readonly endOfLog?: boolean;
  /** Most steps to do now. */
  readonly steps?: number;
}

/** A run at its start, with the scenario's faults worked in. Nothing has happened yet; the log is copied. */
export function runOf(given: Scenario, log?: Log): Run {
  const scenario = imposed(drawn(given));
  const column = columnOf(scenario);
  const bed = packedBed(column);
  const refusals = scenario.faults.flatMap((fault): RunEvent[] => {
    const refused = attempt(bed, column, () => impose(bed, column, fault));
    return refused
      ? [
          {
            entry: -1,
            time_min: 0,
            delivered_mL: 0,
            note: `fault ${fault.kind} not imposed: ${refused.path} expected ${refused.expected}, received ${refused.received}`,
          },
        ]
      : [];
  });
  const record = recordFor(column.ions, bed.plates);
  const run: Run = {
    scenario,
    column,
    bed,
    log: [...(log ?? scenario.procedure)],
    events: refusals,
    record,
    flux: fluxFor(bed.components, bed.plates),
    limits: { time: Number.POSITIVE_INFINITY, delivered: Number.POSITIVE_INFINITY, head: 0 },
    liquids: Object.keys(scenario.liquids),
    feed: new Float64Array(bed.components),
    checked: new WeakMap(),
    startedVolume: liquidOf(bed),
  };
  recordInto(record, bed, column);
  return run;
}

/** Advances the run. Any sequence of calls gives the same states, bit for bit, as one call. True if the log is used up. */
export function advance(run: Run, target: Target): boolean {
  const s = run.bed.scalar;
  let steps = target.steps ?? Number.POSITIVE_INFINITY;
  for (;;) {
    if (hasEnded(run)) return true;
    takeDue(run);
    const done = s[AT.entry] >= run.log.length;
    if (done && target.endOfLog) return true;
    if (s[AT.time] >= (target.time_min ?? Number.POSITIVE_INFINITY) || steps-- <= 0) return done;
    if (done && target.time_min === undefined) return true;
    stepOnce(run);
  }
}

/** Frames between two looks at the ledger. */
const LEDGER_EVERY = 16;
/** Steps between two calls of `alive`. */
const STRIDE_STEPS = 32;

/** The whole run of its log. `alive` is called while it is worked out. */
export function runWhole(scenario: Scenario, log?: Log, alive: () => void = () => undefined): Run {
  const run = runOf(scenario, log);
  advanceAlive(run, { endOfLog: true }, alive);
  recordLast(run);
  return run;
}

/** `advance` in short stretches, with `alive` called after each: for a thread that others wait for. */
export function advanceAlive(run: Run, target: Omit<Target, 'steps'>, alive: () => void): void {
  const s = run.bed.scalar;
  while (!advance(run, { ...target, steps: STRIDE_STEPS }) || !target.endOfLog) {
    if (s[AT.ended] > 0 || s[AT.time] >= (target.time_min ?? Number.POSITIVE_INFINITY)) return;
    alive();
  }
}

/** Takes an action now: forgets what the log still had ahead and adds this at the present time. */
export function act(run: Run, action: Action): RunEvent | undefined {
  cutLog(run);
  run.log.push({ ...action, at_min: run.bed.scalar[AT.time] });
  const before = run.events.length;
  takeDue(run);
  return run.events.slice(before).find((event) => event.entry === run.log.length - 1);
}

/** Forgets the actions that have not been taken yet, and a wait that is still going on. */
export function cutLog(run: Run): void {
  const s = run.bed.scalar;
  run.log.length = Math.min(run.log.length, s[AT.entry]);
  s[AT.entryTime] = -1;
}

export function checkpointOf(run: Run): Checkpoint {
  return { state: checkpoint(run.bed), frames: run.record.count, events: run.events.length };
}

/** Goes back to a checkpoint of this run. The log is left as it is: cut or replace it as needed. */
export function restoreTo(run: Run, point: Checkpoint): void {
  restore(run.bed, point.state);
  run.record.count = point.frames;
  run.events.length = point.events;
}

/** Whether the run has come to its end; says why when it does. */
function hasEnded(run: Run): boolean {
  const s = run.bed.scalar;
  const why = s[AT.ended] > 0 ? undefined : endOf(run.bed);
  if (why === undefined) return s[AT.ended] > 0;
  s[AT.ended] = 1;
  note(run, why);
  return true;
}

function stepOnce(run: Run): void {
  const { bed, column, limits } = run;
  const s = bed.scalar;
  limitsOf(run, limits);
  const feed = s[AT.feedLiquid] < 0 ? undefined : feedOf(run);
  const flowed = s[AT.flow] > 0 || s[AT.time] === 0;
  const drainings = s[AT.drainings];
  s[AT.work] += workOf(bed);
  step(bed, column, limits, feed, run.flux);
  if (s[AT.feedVolume] <= 0) s[AT.feedLiquid] = -1;
  if (s[AT.drainings] > drainings) note(run, airEnters(run));
  if (flowed && s[AT.flow] === 0 && s[AT.clampOpen] > 0 && s[AT.headVolume] === 0 && !isDrained(bed)) note(run, held(run));
  if (s[AT.delivered] >= s[AT.frameAt] || s[AT.time] >= s[AT.frames] + stillSpacing(s[AT.time])) recordLast(run);
}

/** Why nothing flows any more: what hangs below the bed top is less than its beads can hold up, or no more than its outlet lets go. */
function held(run: Run): string {
  const [hangs, holds] = suctions(run);
  const [hung, held] = inCentimetres(run.column, holds / hangs);
  const why = hangs < holds ? `, and the beads hold it: ${hung} of liquid hang below the bed top, and they can hold up ${held}` : '';
  return `${HELD}${why}`;
}

/** What hangs below the bed top, and what can be held up: that many times as much of the same liquid. They can be told apart. */
function inCentimetres({ length, outlet }: Run['column'], times: number): readonly [hung: string, held: string] {
  const hung_cm = length + outlet;
  const decimals = decimalsApart(hung_cm, times * hung_cm, 1);
  return [`${hung_cm.toFixed(decimals)} cm`, `${(times * hung_cm).toFixed(decimals)} cm`];
}

/** Weight of the liquid that hangs below the bed top, and the least suction at which air enters a lane, g/cm². */
function suctions({ bed, column }: Run): readonly [hangs: number, holds: number] {
  const tip = bed.density[bed.lanes * bed.plates - 1];
  const heaviest = bed.weight.reduce((most, weight) => Math.max(most, weight), 0);
  return [heaviest + column.outlet * tip, bed.airEntry.reduce((least, entry) => Math.min(least, entry), Number.POSITIVE_INFINITY)];
}

/** Why the bed runs dry: the liquid it holds and the filled outlet pull harder than the beads can hold where they are packed loosest. */
function airEnters(run: Run): string {
  const [hangs, holds] = suctions(run);
  if (hangs < holds) return `${AIR_ENTERS}: the liquid at its top has dried off`;
  const [hung, held] = inCentimetres(run.column, holds / hangs);
  return `${AIR_ENTERS}: ${hung} of liquid hang below its top, more than the ${held} that its beads can hold up where they are packed loosest`;
}

/** Records the run as it stands. */
export function recordLast(run: Run): void {
  const { bed, column } = run;
  const s = bed.scalar;
  const spacing = frameSpacing(bed, column.scenario.values['numerics.frame_mL']);
  s[AT.frameAt] = (Math.floor(s[AT.delivered] / spacing + 1e-9) + 1) * spacing;
  s[AT.frames] = s[AT.time];
  if (run.record.count % LEDGER_EVERY === 0) s[AT.worstLedger] = Math.max(s[AT.worstLedger], ledgerError(bed, column));
  recordInto(run.record, bed, column);
}

/** mol/L of the reservoir that feeds the head at constant level. */
function feedOf(run: Run): Float64Array {
  const row = run.column.liquids[run.liquids[run.bed.scalar[AT.feedLiquid]]];
  run.feed.set(row);
  run.feed[0] = fumedAcid(row[0], run.scenario.values['bench.fuming_per_h'], run.bed.scalar[AT.time]);
  return run.feed;
}
