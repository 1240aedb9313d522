import { isSample, isWeaker, type RunEvent } from '../history/index.ts';
import type { Action, Scenario } from '../terms/types.ts';

// The procedure of a scenario as a list of steps with a role each, and how far a run has come in it.

export type Role = 'condition' | 'load' | 'wash' | 'release' | 'change' | 'stop';

/**
 * done: ticked. now: what is due. open: may be done from here on, when is the student's to judge. later: not yet. missed: the run is
 * over without it.
 */
export type StepState = 'done' | 'now' | 'open' | 'later' | 'missed';

export interface Step {
  readonly role: Role;
  /** Bottle of a pour, else empty. */
  readonly liquid: string;
  /** Receiver that is put under the tip, else empty. */
  readonly label: string;
  readonly planned_mL: number;
  readonly poured_mL: number;
  /** Part of `planned_mL` that the procedure adds in small portions after a sample, to wash it in. */
  readonly rinses_mL: readonly number[];
  /** mL that the procedure lets run before it changes the receiver while this drips; absent where it does not, or the receiver is changed. */
  readonly runs_mL?: number | undefined;
  readonly state: StepState;
}

type Planned = Omit<Step, 'poured_mL' | 'state'>;
type Pour = Extract<Action, { do: 'pour' }>;

/** Poured to within this, mL, a step is done: no cylinder is read finer. A choice. */
const CLOSE_ML = 0.05;
/** Share of the planned wash, after the sample was washed in, that is poured before the list offers water: no earlier would anybody want it. A choice. */
const WASHED = 0.25;

/** Steps of the scenario's procedure after these events; none where it has no procedure. Once the run is over nothing is due any more. */
export function checklistOf(scenario: Scenario, events: readonly RunEvent[], over = false): Step[] {
  const steps = plannedSteps(scenario);
  const poured = pouredBySteps(scenario, steps, events);
  const done = steps.map((step, i) => isDone(step, i, steps, poured, events));
  const first = done.indexOf(false);
  const awaitsChange = (i: number) => steps[i + 1]?.role === 'change' && !done[i + 1];
  // What was set free waits for nobody: once its eluent is begun, the receiver comes before the rest of it.
  const now = first >= 0 && steps[first].runs_mL !== undefined && poured[first] > 0 && awaitsChange(first) ? first + 1 : first;
  const stateOf = (i: number): StepState => {
    if (done[i]) return 'done';
    // A pour that was begun and ended early was the student's to end.
    if (over) return poured[i] > 0 ? 'done' : 'missed';
    return i === now ? 'now' : openAt(i, now, steps, poured) ? 'open' : 'later';
  };
  return steps.map((step, i) => ({ ...step, runs_mL: awaitsChange(i) ? step.runs_mL : undefined, poured_mL: poured[i], state: stateOf(i) }));
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

function plannedSteps(scenario: Scenario): Planned[] {
  const steps: Planned[] = [];
  const waiting: Planned[] = [];
  let sample: Pour | undefined;
  let run_mL = 0;
  for (const action of scenario.procedure) {
    if (action.do === 'wait') run_mL += 'more_mL' in action.until ? action.until.more_mL : Number.NaN;
    if (action.do === 'receiver' && steps.length > 0) {
      waiting.push(plain('change', action.label));
      const dripping = steps[steps.length - 1];
      if (dripping.role === 'release' && run_mL > 0) steps[steps.length - 1] = { ...dripping, runs_mL: dripping.runs_mL ?? run_mL };
    }
    if (action.do !== 'pour') continue;
    run_mL = 0;
    const role = roleOf(scenario, action, sample);
    const last = steps.at(-1);
    if (last && last.liquid === action.liquid && last.role === role) steps[steps.length - 1] = longer(last, action, sample);
    else {
      steps.push(...waiting.splice(0));
      steps.push(longer({ ...plain(role, ''), liquid: action.liquid }, action, sample));
    }
    if (role === 'load') sample = action;
  }
  return steps.length === 0 ? [] : [...steps, ...waiting, plain('stop', '')];
}

function plain(role: Role, label: string): Planned {
  return { role, label, liquid: '', planned_mL: 0, rinses_mL: [] };
}

/** Portions no larger than the sample, right after it, wash it in. */
function longer(step: Planned, { volume_mL }: Pour, sample: Pour | undefined): Planned {
  const rinse = step.role === 'wash' && sample !== undefined && volume_mL <= sample.volume_mL && sum(step.rinses_mL) >= step.planned_mL;
  return { ...step, planned_mL: step.planned_mL + volume_mL, rinses_mL: rinse ? [...step.rinses_mL, volume_mL] : step.rinses_mL };
}

function roleOf({ liquids }: Scenario, { liquid }: Pour, sample: Pour | undefined): Role {
  if (isSample(liquids[liquid])) return 'load';
  if (!sample) return 'condition';
  return isWeaker(liquids[liquid], liquids[sample.liquid].HCl_M) ? 'release' : 'wash';
}

/** mL per step: a pour counts for the step of its liquid that is reached, or the next that wants it. */
function pouredBySteps({ liquids }: Scenario, steps: readonly Planned[], events: readonly RunEvent[]): number[] {
  const poured = steps.map(() => 0);
  let at = 0;
  for (const { action, refused } of events) {
    if (action?.do !== 'pour' || refused || !liquids[action.liquid]) continue;
    const next = steps.findIndex((step, i) => i >= at && step.liquid === action.liquid);
    if (next < 0) continue;
    at = next;
    poured[at] += action.volume_mL;
  }
  return poured;
}

function isDone(step: Planned, i: number, steps: readonly Planned[], poured: readonly number[], events: readonly RunEvent[]): boolean {
  if (step.role === 'change') return changedTo(step.label, events);
  if (step.role === 'stop') return shutAfter(steps, poured, events);
  return poured[i] >= step.planned_mL - CLOSE_ML || poured.some((volume, later) => later > i && volume > 0);
}

function changedTo(label: string, events: readonly RunEvent[]): boolean {
  return events.some(({ action, refused, delivered_mL }) => action?.do === 'receiver' && !refused && action.label === label && delivered_mL > 0);
}

/** Whether the clamp was shut, and left so, once the last liquid had been begun. */
function shutAfter(steps: readonly Planned[], poured: readonly number[], events: readonly RunEvent[]): boolean {
  const last = steps.findLastIndex(({ liquid }) => liquid !== '');
  const clamp = events.findLast(({ action, refused }) => action?.do === 'clamp' && !refused)?.action;
  const lastPour = events.findLastIndex(({ action, refused }) => action?.do === 'pour' && !refused);
  const lastClamp = events.findLastIndex(({ action, refused }) => action?.do === 'clamp' && !refused);
  return poured[last] > 0 && lastClamp > lastPour && clamp?.do === 'clamp' && clamp.open_percent === 0;
}

/** What lies next to a step in hand may be begun before that one is all in: the washing ends, the beaker changes and the run stops when the student says so. */
function openAt(i: number, now: number, steps: readonly Planned[], poured: readonly number[]): boolean {
  const current = steps[now];
  if (!current || i < now) return false;
  const judged = current.role === 'wash' || current.role === 'release' || current.role === 'change';
  if (!judged || (current.liquid !== '' && poured[now] <= begunFrom(current))) return false;
  const between = steps.slice(now + 1, i);
  return between.every(({ role }) => role === 'change');
}

/** mL; more of a step than this and what comes next may be wanted. A wash is not begun by washing the sample in. */
function begunFrom({ role, planned_mL, rinses_mL }: Planned): number {
  const rinsed = sum(rinses_mL);
  return role === 'wash' ? rinsed + WASHED * (planned_mL - rinsed) - CLOSE_ML : 0;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
