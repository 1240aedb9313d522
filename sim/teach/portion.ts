import type { RunEvent } from '../history/index.ts';
import { sectionOf } from '../terms/geometry.ts';
import { LIMITS } from '../terms/limits.ts';
import type { Action, Log, Parameters, Scenario, Until } from '../terms/types.ts';
import { checklistOf, firstReceiver, NEAR_ML, type Step } from './checklist.ts';

// What fits above the bed, and the actions that carry a step of the checklist on by one press.

/** What is looked at of the column. */
export interface Standing {
  readonly events: readonly RunEvent[];
  /** Liquid above the bed, mL. */
  readonly headVolume: number;
  readonly level_cm: number;
  /** 0 to 1. */
  readonly clampOpen: number;
  readonly delivered_mL: number;
  /** mL/min. */
  readonly flow: number;
}

/** Liquid left above the bed before the next is poured. Common practice, no source. */
export const LOW_MM = 1;
const LOW: Until = { liquid_mm: LOW_MM };
const LEAST_ML = LIMITS['pour.volume_mL'].step;
/** Tenths of a mL are poured; what is left of rounding is none. */
const TENTHS = 10;
/** cm by which the level may stand above the millimetre and still count as there. */
const NEAR_CM = 0.02;

/** mL that fit above the bed now, in whole tenths. */
export function fits(values: Parameters, headVolume: number): number {
  return Math.max(0, Math.floor((roomOf(values) - headVolume) * TENTHS + 1e-6) / TENTHS);
}

/** Bottle, volume and the actions of one press; undefined where nothing can be done for this step. */
export interface Offer {
  readonly step: Step;
  /** mL poured in all; 0 for a step that pours nothing. */
  readonly volume_mL: number;
  readonly portions: number;
  readonly opens: boolean;
  /** The portions wash the sample in. */
  readonly rinses: boolean;
  readonly actions: Log;
}

/** What one press does for a step that is due or open. `washTo_mL`: delivered volume beyond which no washing is offered at once, where that is known. */
export function offerFor(scenario: Scenario, at: Standing, step: Step, washTo_mL?: number): Offer | undefined {
  if (step.state !== 'now' && step.state !== 'open') return undefined;
  if (step.role === 'change') return offer(step, [], [{ do: 'receiver', label: step.label }], false);
  if (step.role === 'stop') return offer(step, [], ending(step, at), false);
  const low_mL = lowVolume(scenario.values);
  const washing = rinsesLeft(step);
  const first = washing.length > 0 ? at.level_cm > LOW_MM / 10 + NEAR_CM : lowFirst(scenario, at, step);
  const portions =
    washing.length > 0
      ? washing
      : limited(portionsOf(scenario, first ? low_mL : at.headVolume, step), step, at.delivered_mL + at.headVolume - low_mL, washTo_mL);
  if (portions.length === 0) return undefined;
  const opens = at.clampOpen === 0;
  const ready: Action[] = [...named(scenario, at), ...(opens ? [{ do: 'clamp', open_percent: 100 } as const] : []), ...(first ? [wait()] : [])];
  const pours = portions.flatMap((volume_mL): Action[] => [{ do: 'pour', liquid: step.liquid, volume_mL, how: 'wall' }, waitFor(step, volume_mL)]);
  return offer(step, portions, [...ready, ...pours, ...rinses(scenario, step)], opens, washing.length > 0);
}

/** A sample that was poured by hand is still to be washed in, a rinse at a time. */
function rinsesLeft({ role, rinses_mL, poured_mL }: Step): readonly number[] {
  if (role !== 'wash') return [];
  let sum = 0;
  return rinses_mL.filter((volume_mL) => {
    sum += volume_mL;
    return poured_mL < sum - LEAST_ML / 2;
  });
}

/** With steps left, or with what was just poured, a clamp that is shut may be opened again: that the run ends is said by shutting it once more. */
function ending({ state }: Step, { clampOpen }: Standing): Log {
  const shut: Action = { do: 'clamp', open_percent: 0 };
  return state === 'now' || clampOpen === 0 ? [shut] : [shut, shut];
}

function offer(step: Step, portions: readonly number[], actions: Log, opens: boolean, rinses = false): Offer {
  return { step, rinses, portions: portions.length, volume_mL: portions.reduce((sum, volume) => sum + volume, 0), opens, actions };
}

/** Nothing has to be judged while a bed is conditioned, so all of that is one press; else as much as fits, up to where the procedure looks. */
function portionsOf({ values }: Scenario, head_mL: number, { role, planned_mL, poured_mL, runs_mL, looks_mL }: Step): number[] {
  const room = fits(values, head_mL);
  const left = tenths(planned_mL - poured_mL);
  if (left <= 0 || room < LEAST_ML) return [];
  if (!isWhole(role)) {
    const look = looks_mL.find((mL) => mL > poured_mL + NEAR_ML) ?? planned_mL;
    const [even] = evenly(tenths(look - poured_mL), fits(values, lowVolume(values)));
    return [Math.min(room, runs_mL === undefined ? even : Math.min(left, halfOf(planned_mL)))];
  }
  return evenly(left, left <= room ? room : fits(values, lowVolume(values)));
}

/** As few equal portions as there must be, the last the rest: no small one is left over. */
function evenly(volume_mL: number, most_mL: number): number[] {
  const count = Math.ceil(volume_mL / most_mL - 1e-9);
  const each = Math.ceil((volume_mL / count) * TENTHS - 1e-6) / TENTHS;
  return [...Array.from({ length: count - 1 }, () => each), tenths(volume_mL - each * (count - 1))];
}

function isWhole(role: Step['role']): boolean {
  return role === 'condition' || role === 'load';
}

function tenths(volume_mL: number): number {
  return Math.round(volume_mL * TENTHS) / TENTHS;
}

/** In a wide tube all of it would fit: the rest stays in the bottle until the receiver is changed. */
function halfOf(volume_mL: number): number {
  return Math.ceil((volume_mL / 2) * TENTHS) / TENTHS;
}

/** Washed no further than to where water may start; past that the step is offered as it is. `in_mL`: what has run and what still stands above the bed. */
function limited(portions: readonly number[], { role }: Step, in_mL: number, washTo_mL = Number.POSITIVE_INFINITY): readonly number[] {
  const left = Math.ceil((washTo_mL - in_mL) * TENTHS) / TENTHS;
  return role === 'wash' && left >= LEAST_ML ? portions.map((volume_mL) => Math.min(volume_mL, left)) : portions;
}

/** The sample is washed in at once, as the procedure has it. */
function rinses(scenario: Scenario, { role, liquid }: Step): Action[] {
  if (role !== 'load') return [];
  const steps = checklistOf(scenario, []);
  const wash = steps[steps.findIndex((step) => step.role === 'load' && step.liquid === liquid) + 1];
  if (wash?.role !== 'wash') return [];
  return wash.rinses_mL.flatMap((volume_mL): Action[] => [{ do: 'pour', liquid: wash.liquid, volume_mL, how: 'wall' }, wait()]);
}

/**
 * Another liquid than the one above the bed goes onto a low level, or the two mix. So does the same one where what still stands there
 * leaves no room for an even portion, or, of a wash or what follows it, for half a filling: a little poured onto much is little done.
 */
function lowFirst(scenario: Scenario, { events, level_cm, headVolume }: Standing, step: Step): boolean {
  if (level_cm <= LOW_MM / 10 + NEAR_CM) return false;
  const last = events.findLast(({ action, refused }) => action?.do === 'pour' && !refused)?.action;
  if (last?.do !== 'pour' || last.liquid !== step.liquid) return true;
  const low_mL = lowVolume(scenario.values);
  const room = fits(scenario.values, headVolume);
  const [portion = 0] = portionsOf(scenario, low_mL, step);
  return room < (isWhole(step.role) ? portion : Math.min(portion, fits(scenario.values, low_mL) / 2));
}

function named(scenario: Scenario, { events, delivered_mL }: Standing): Action[] {
  const label = firstReceiver(scenario);
  const known = events.some(({ action, refused }) => action?.do === 'receiver' && !refused);
  return label === undefined || known || delivered_mL > 0 ? [] : [{ do: 'receiver', label }];
}

/** Where the receiver is still to be changed, what sets the band free runs only as far as the procedure lets it. */
function waitFor({ runs_mL }: Step, volume_mL: number): Action {
  return runs_mL !== undefined && runs_mL < volume_mL ? { do: 'wait', until: { more_mL: runs_mL } } : wait();
}

function wait(): Action {
  return { do: 'wait', until: LOW };
}

function roomOf(values: Parameters): number {
  return sectionOf(values) * (values['column.tube_cm'] - values['bed.length_cm']);
}

function lowVolume(values: Parameters): number {
  return (sectionOf(values) * LOW_MM) / 10;
}
