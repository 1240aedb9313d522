import type { Results, RunEvent } from '../history/index.ts';
import { sectionOf } from '../terms/geometry.ts';
import type { Scenario } from '../terms/types.ts';
import { sum } from '../math/sum.ts';
import { plannedSteps, type PlannedStep } from './steps.ts';
import { type Ticks, ticksOf } from './ticks.ts';

// How far a run has come in its procedure.

/**
 * done: ticked. now: what is due. open: may be done from here on, when is the student's to judge. later: not yet. missed: too late
 * for it, or the run is over without it.
 */
export type StepState = 'done' | 'now' | 'open' | 'later' | 'missed';

export interface Step extends PlannedStep {
  readonly poured_mL: number;
  readonly state: StepState;
}

/** A volume is poured to within this share of it, mL at least: what a measuring cylinder of class B is good to (ISO 4788, 0.5 mL in 25 mL; memory). */
const CLOSE = 0.02;
const CLOSE_ML = 0.05;
/** Share of the planned wash, after the sample was washed in, that is poured before the list offers water: no earlier would anybody want it. A choice. */
const WASHED = 0.25;
/** Share of the water after which the list offers what ends it. A choice. */
const RELEASED = 0.5;
/** From so many mL before the best start of a weaker eluent on, now is as good; a choice. */
export const NEAR_ML = 1;

/**
 * Steps of the scenario's procedure after these events; none where it has no procedure. Once the run is over nothing is due any more.
 * `washed`: the wash in hand need not go on, see `isWashed`.
 */
export function checklistOf(scenario: Scenario, events: readonly RunEvent[], over = false, washed = false): Step[] {
  const steps = plannedSteps(scenario);
  const ticks = ticksOf(scenario, steps, events, firstReceiver(scenario));
  const { poured } = ticks;
  const passed = steps.map((_, i) => isPassed(i, steps, ticks));
  const done = steps.map((step, i) => isDone(step, i, ticks) || (washed && i === ticks.at && step.role === 'wash' && isBegun(step, poured[i])));
  const stop = steps.length - 1;
  if (stop >= 0) done[stop] = isEnd(events, !done.some((one, i) => !one && !passed[i] && i < stop));
  const first = done.findIndex((one, i) => !one && !passed[i]);
  const awaitsChange = (i: number) => steps[i + 1]?.role === 'change' && !done[i + 1];
  // What was set free waits for nobody: once its eluent is begun, the receiver comes before the rest of it.
  const now = first >= 0 && steps[first].runs_mL !== undefined && poured[first] > 0 && awaitsChange(first) ? first + 1 : first;
  const stateOf = (i: number): StepState => {
    if (done[i]) return 'done';
    // A pour that was begun and ended early was the student's to end.
    if (over) return poured[i] > 0 || steps[i].role === 'stop' ? 'done' : 'missed';
    if (passed[i]) return 'missed';
    // The clamp is shut to think as well: the run then ends only where that is said.
    if (i !== now && steps[i].role === 'stop' && isShut(events) && steps.some(({ role }, n) => role === 'load' && poured[n] > 0)) return 'open';
    return i === now ? 'now' : openAt(i, now, steps, poured, done) ? 'open' : 'later';
  };
  return steps.map((step, i) => ({ ...step, runs_mL: awaitsChange(i) ? step.runs_mL : undefined, poured_mL: poured[i], state: stateOf(i) }));
}

/** Whether a shut clamp ends the run: all else of the procedure is done, or it was shut once more to say so. Undefined where there is no procedure to go by. */
export function isEnded(scenario: Scenario, events: readonly RunEvent[]): boolean | undefined {
  const stop = checklistOf(scenario, events).at(-1);
  return stop && stop.state === 'done';
}

/** What is looked at of the column to judge a wash. */
interface Looked {
  readonly results: Results;
  readonly delivered_mL: number;
  /** mL. */
  readonly headVolume: number;
}

/** Whether a wash need not go on: its band stands where the procedure stops, or `washTo_mL`, the delivered volume at which water is best, is reached. */
export function isWashed({ procedure, values }: Scenario, { results, delivered_mL, headVolume }: Looked, washTo_mL = Number.POSITIVE_INFINITY): boolean {
  if (delivered_mL + headVolume > washTo_mL - NEAR_ML) return true;
  const look = procedure.find((action) => action.do === 'pour' && action.unless);
  const unless = look?.do === 'pour' ? look.unless : undefined;
  const band = unless && results.bands[unless.ion];
  return unless && band ? (results.bed.volume_mL / sectionOf(values) - band.leading_cm) * 10 <= unless.above_bottom_mm : false;
}

/** Receiver that the procedure puts under the tip before anything has dripped. */
export function firstReceiver({ procedure }: Scenario): string | undefined {
  const first = procedure.find((action) => action.do === 'receiver' || action.do === 'pour');
  return first?.do === 'receiver' ? first.label : undefined;
}

/** Whether the procedure pours this liquid to set free what the bed holds. */
export function releases(scenario: Scenario, liquid: string): boolean {
  return plannedSteps(scenario).some((step) => step.role === 'release' && step.liquid === liquid);
}

function isDone(step: PlannedStep, i: number, { poured, changed }: Ticks): boolean {
  if (step.role === 'change') return changed[i];
  if (step.role === 'stop') return false;
  const enough = step.planned_mL - Math.max(CLOSE_ML, CLOSE * step.planned_mL);
  // Who has put the next receiver under the tip has ended what went into the one before.
  const ended = changed[i + 1] && step.runs_mL === undefined && isBegun(step, poured[i]);
  return poured[i] >= enough || ended || poured.some((volume, later) => later > i && volume > 0);
}

/** A change that was left out, once another has come or what follows another is poured. */
function isPassed(i: number, steps: readonly PlannedStep[], { poured, changed }: Ticks): boolean {
  if (steps[i].role !== 'change' || changed[i]) return false;
  const next = steps.findIndex(({ role }, later) => later > i && role === 'change');
  return next > 0 && (changed.includes(true, next) || poured.some((volume, later) => later > next && volume > 0));
}

/** Whether the clamp was shut after the last pour, with nothing left to do before or a second time: that is how a run is ended early. */
function isEnd(events: readonly RunEvent[], allDone: boolean): boolean {
  const lastPour = events.findLastIndex(({ action, refused }) => action?.do === 'pour' && !refused);
  const lastClamp = events.findLastIndex(({ action, refused }) => action?.do === 'clamp' && !refused);
  return isShut(events) && lastClamp > lastPour && (allDone || isShut(events.slice(0, lastClamp)));
}

/** Whether the clamp was last shut by hand. */
function isShut(events: readonly RunEvent[]): boolean {
  const clamp = events.findLast(({ action, refused }) => action?.do === 'clamp' && !refused)?.action;
  return clamp?.do === 'clamp' && clamp.open_percent === 0;
}

/**
 * What lies next to a step in hand may be begun before that one is all in: the washing ends, the receiver changes and the run stops when
 * the student says so. Past a change of the receiver only what sets the band free may be poured, since that takes a few mL to arrive.
 */
function openAt(i: number, now: number, steps: readonly PlannedStep[], poured: readonly number[], done: readonly boolean[]): boolean {
  const current = steps[now];
  if (!current || i <= now) return false;
  const judged = current.role === 'change' || ((current.role === 'wash' || current.role === 'release') && isBegun(current, poured[now]));
  const from = current.role === 'change' ? now : now + 1;
  const between = steps.slice(from, i).filter((_, n) => !done[from + n]);
  if (!judged || between.some(({ role }) => role !== 'change')) return false;
  return between.length === 0 || !['condition', 'load', 'wash'].includes(steps[i].role);
}

/** Whether so much of a step is in that what comes next may be wanted. A wash is not begun by washing the sample in. */
function isBegun({ role, planned_mL, rinses_mL, runs_mL }: PlannedStep, poured_mL: number): boolean {
  const rinsed = sum(rinses_mL);
  const share = role === 'wash' ? WASHED : role === 'release' && runs_mL === undefined ? RELEASED : 0;
  return poured_mL > 0 && poured_mL >= rinsed + share * (planned_mL - rinsed) - CLOSE_ML;
}
