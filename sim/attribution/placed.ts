import { sectionOf } from '../terms/geometry.ts';
import { certain, deliveredOf, type Frames, frameAtTime, framesOf, idleBetween, levelOf, type Results, type RunEvent, timeOf } from '../history/index.ts';
import { resultsOf, type Run, runWhole } from '../run/index.ts';
import type { Action, IonId, Log, Scenario } from '../terms/types.ts';

// A log as it was carried out, every action tied to the delivered volume at which it was taken, so that it can be repeated
// on another bed: the operator looks at levels and volumes, not at the clock.

/** What attribution needs of a whole run; a run and the page's plan both have it. */
export interface Whole extends Frames {
  readonly results: Results;
  readonly events: readonly RunEvent[];
}

/** A whole run of a log, as attribution takes it. */
export function wholeRun(scenario: Scenario, log: Log, alive?: () => void): Whole {
  return wholeOf(runWhole(scenario, log, alive));
}

export function wholeOf(run: Run): Whole {
  return { ...framesOf(run.record), events: run.events, results: resultsOf(run) };
}

/** An action with a name that stays when others are added or removed. */
export interface Step {
  readonly id: number;
  readonly action: Action;
  /** Delivered volume at which it is taken, mL. */
  readonly at_mL: number;
  /** Where and when it was taken in this run; -1 and 0 for steps that were added. */
  readonly entry: number;
  readonly time_min: number;
  /** Liquid above the bed just before, cm. */
  readonly level_cm: number;
  /** Percent the clamp is open after it. */
  readonly open: number;
}

/** Steps that lie no further apart are taken at once, mL. */
const SAME_ML = 1e-9;
/** With less liquid above it, the bed is dry, cm: a fifth of the millimetre that careful hands leave. */
const DRY_CM = 0.02;
/** Idle time shorter than this does not count, min. */
const IDLE_LEAST_MIN = 0.5;

/** The steps of a run that were carried out, with waits where nothing was delivered. */
export function stepsOf(scenario: Scenario, whole: Whole): Step[] {
  const section = sectionOf(scenario.values);
  const steps: Step[] = [];
  const pours: { readonly time_min: number; readonly volume_mL: number }[] = [];
  let [open, since] = [0, 0];
  const done = whole.events.filter(({ entry, refused, action }) => entry >= 0 && !refused && action);
  for (const { action, entry, time_min, delivered_mL } of done) {
    if (!action) continue;
    const level_cm = levelJustBefore(whole, section, time_min, delivered_mL, pours);
    const idle = idleBetween(whole, since, time_min);
    const common = { entry, at_mL: delivered_mL, time_min, level_cm };
    if (idle >= IDLE_LEAST_MIN) steps.push({ ...common, id: steps.length, open, action: { do: 'wait', until: { elapsed_min: idle } }, time_min: since });
    since = time_min;
    if (action.do === 'wait') continue;
    if (action.do === 'clamp') open = action.open_percent;
    if (action.do === 'pour') pours.push({ time_min, volume_mL: action.volume_mL });
    steps.push({ ...common, id: steps.length, open, action });
  }
  return steps;
}

/** The level of the last frame, less what has left since, and with what was poured after it. */
function levelJustBefore(
  whole: Whole,
  section: number,
  time_min: number,
  delivered_mL: number,
  pours: readonly { readonly time_min: number; readonly volume_mL: number }[],
): number {
  if (whole.count === 0) return 0;
  const frame = frameAtTime(whole, time_min);
  const from_min = timeOf(whole, frame);
  const since_mL = pours.reduce((sum, pour) => sum + (pour.time_min >= from_min ? pour.volume_mL : 0), 0);
  return Math.max(0, levelOf(whole, frame) + (since_mL - (delivered_mL - deliveredOf(whole, frame))) / section);
}

/**
 * The steps as a log again, as hands repeat them: each when the liquid has sunk to where it stood, since a bed that holds no air, or other
 * pours, reach that level at another delivered volume. On a dry bed, and where a level is held, the volume tells; a receiver is changed so
 * much after the pour before it.
 */
export function logFrom(steps: readonly Step[]): Log {
  const byLevel = steps.every(({ action }) => action.do !== 'pour' || action.hold_level !== true);
  let reached = 0;
  let poured = 0;
  return steps.flatMap(({ action, at_mL, level_cm }): Action[] => {
    const waits = at_mL > reached + SAME_ML;
    reached = Math.max(reached, at_mL);
    const { at_min: _min, at_mL: _mL, ...rest } = action;
    // Dropping the two optional times leaves the same kind of action.
    const plain = certain(rest as Action);
    if (plain.do === 'receiver' && poured > 0) return [{ do: 'wait', until: { more_mL: reached - poured } }, plain];
    if (plain.do === 'pour') poured = reached;
    if (!byLevel || level_cm < DRY_CM) return [{ ...plain, at_mL: reached } as Action];
    return waits ? [{ do: 'wait', until: { liquid_mm: 10 * level_cm } }, plain] : [plain];
  });
}

/** A step that is added before another, at a delivered volume. */
export function added(action: Action, at_mL: number, like: Step): Step {
  return { id: -1, action, at_mL, entry: -1, time_min: 0, level_cm: like.level_cm, open: like.open };
}

/** Inserts steps before the one with this id, and moves it and all that follow by a volume. */
export function insertedBefore(steps: readonly Step[], id: number, extra: readonly Step[], shift_mL: number): Step[] {
  const at = steps.findIndex((step) => step.id === id);
  if (at < 0) return [...steps];
  return [...steps.slice(0, at), ...extra, ...moved(steps.slice(at), shift_mL)];
}

export function moved(steps: readonly Step[], shift_mL: number): Step[] {
  return steps.map((step) => ({ ...step, at_mL: Math.max(0, step.at_mL + shift_mL) }));
}

export function amountIn(amounts: Readonly<Record<string, unknown>>, ion: IonId): number {
  return Number(amounts[`${ion}_mmol`] ?? 0);
}
