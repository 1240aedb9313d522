import { FRAME } from './record.ts';
import type { Amounts, IonId, Log } from '../terms/types.ts';
import { movedEluent } from './edit.ts';
import type { Plan } from './plan.ts';

// When to change the receiver and when to start another eluent, read off a run. Amounts between frames are interpolated.

/** What the collected fraction must hold. Shares are of what was poured. */
export interface FractionTargets {
  readonly target: IonId;
  readonly unwanted: readonly IonId[];
  /** Least share of the target, such as 0.995. */
  readonly recovered: number;
  /** Largest share of any unwanted ion, such as 0.005. */
  readonly carried: number;
  /** Largest amount of acid, mmol; no bound when left out. */
  readonly acid_mmol?: number;
  /** Alkali that neutralises the acid, mol/L. */
  readonly NaOH_M: number;
  /** Delivered volume at which collecting ends; the end of the run when left out. */
  readonly stop_mL?: number;
}

/** What a fraction holds. */
export interface Fraction {
  readonly volume_mL: number;
  readonly recovered: number;
  readonly carried: number;
  readonly acid_mmol: number;
  readonly NaOH_mL: number;
}

/** Delivered volumes at which the receiver may be changed, and what each would give. */
export interface SwitchWindow {
  readonly from_mL: number;
  readonly to_mL: number;
  readonly stop_mL: number;
  at(change_mL: number): Fraction;
}

export interface Verdict extends Fraction {
  readonly meets: boolean;
  /** Shares of the target delivered before the change, after the stop, and never delivered. */
  readonly lostBefore: number;
  readonly lostAfter: number;
  readonly lostBehind: number;
  /** How far outside the window; 0 inside. Undefined when no change of receiver meets the targets. */
  readonly early_mL: number | undefined;
  readonly late_mL: number | undefined;
}

/** Delivered volume of the last frame, mL. */
export function deliveredAtEnd(plan: Plan): number {
  return plan.count === 0 ? 0 : plan.rows[(plan.count - 1) * plan.stride + FRAME.delivered];
}

/** The last frame at or before a delivered volume; frame 0 before the first. */
export function frameAt(plan: Plan, delivered_mL: number): number {
  let low = 0;
  let high = plan.count - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (plan.rows[middle * plan.stride + FRAME.delivered] <= delivered_mL) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Any column of the rows at a delivered volume, interpolated between frames. */
export function columnAt(plan: Plan, column: number, delivered_mL: number): number {
  const frame = frameAt(plan, delivered_mL);
  const { rows, stride } = plan;
  const here = rows[frame * stride + column];
  if (frame + 1 >= plan.count) return here;
  const from = rows[frame * stride + FRAME.delivered];
  const to = rows[(frame + 1) * stride + FRAME.delivered];
  const share = Math.min(1, Math.max(0, (delivered_mL - from) / (to - from)));
  return here + share * (rows[(frame + 1) * stride + column] - here);
}

/** mmol of every component delivered between two volumes. */
export function collected(plan: Plan, from_mL: number, to_mL: number): Amounts {
  const amount = (component: number): number => deliveredAmount(plan, component, to_mL) - deliveredAmount(plan, component, from_mL);
  return Object.fromEntries([['HCl_mmol', amount(0)], ...plan.ions.map((ion, i) => [`${ion}_mmol`, amount(i + 1)])]);
}

/** The changes of receiver that meet the targets; undefined when none does. */
export function switchWindow(plan: Plan, targets: FractionTargets): SwitchWindow | undefined {
  const stop_mL = stopOf(plan, targets);
  const span = spanOf(plan, targets, stop_mL);
  return span && { ...span, stop_mL, at: (change_mL) => fractionOf(plan, targets, change_mL, stop_mL) };
}

/** What collecting from a change of receiver until a stop gives, and how far off the window it is. */
export function verdict(plan: Plan, targets: FractionTargets, change_mL: number, stop_mL = stopOf(plan, targets)): Verdict {
  const fraction = fractionOf(plan, targets, change_mL, stop_mL);
  const component = componentOf(plan, targets.target);
  const end = deliveredAtEnd(plan);
  const shareAt = (delivered_mL: number): number => share(deliveredAmount(plan, component, delivered_mL), poured(plan, targets.target));
  const span = spanOf(plan, targets, stop_mL);
  return {
    ...fraction,
    meets:
      fraction.recovered >= targets.recovered && fraction.carried <= targets.carried && fraction.acid_mmol <= (targets.acid_mmol ?? Number.POSITIVE_INFINITY),
    lostBefore: shareAt(change_mL),
    lostAfter: shareAt(end) - shareAt(stop_mL),
    lostBehind: Math.max(0, 1 - shareAt(end)),
    early_mL: span && Math.max(0, span.from_mL - change_mL),
    late_mL: span && Math.max(0, change_mL - span.to_mL),
  };
}

/** Delivered volumes at which an eluent may be started so that some change of receiver still meets the targets. */
export interface StartWindow {
  readonly from_mL: number;
  readonly to_mL: number;
  /** The bound is where the search ended, not where the targets begin to fail. */
  readonly fromOpen: boolean;
  readonly toOpen: boolean;
  /** Trial runs that were made. */
  readonly trials: number;
}

export interface StartSearch {
  /** How far beyond the present start to look, mL. */
  readonly reach_mL?: number;
  /** Bounds are found to this, mL. */
  readonly within_mL?: number;
}

/**
 * The window for the eluent change at `entry` of the log, by trial runs of the log with that change moved. `planOf` runs a
 * log whole; it must not disturb the model that plays the run on screen. Undefined when no start that was tried works.
 */
export async function waterWindow(
  plan: Plan,
  entry: number,
  targets: FractionTargets,
  planOf: (log: Log) => Promise<Plan>,
  search: StartSearch = {},
): Promise<StartWindow | undefined> {
  const { reach_mL = REACH_ML, within_mL = WITHIN_ML } = search;
  const start = plan.events.find((event) => event.entry === entry)?.delivered_mL ?? 0;
  const [low, high] = [begunAt(plan, entry), start + reach_mL];
  let trials = 0;
  const works = async (delivered_mL: number): Promise<boolean> => {
    trials += 1;
    const trial = await planOf(movedEluent(plan.log, plan.events, entry, delivered_mL));
    const stop_mL = targets.stop_mL === undefined ? undefined : targets.stop_mL + delivered_mL - start;
    return switchWindow(trial, { ...targets, stop_mL }) !== undefined;
  };
  const inside = await firstThatWorks([start, ...spread(low, high)], works);
  if (inside === undefined) return undefined;
  const fromOpen = await works(low);
  const toOpen = await works(high);
  const from_mL = fromOpen ? low : await bound(inside, low, within_mL, works);
  const to_mL = toOpen ? high : await bound(inside, high, within_mL, works);
  return { from_mL, to_mL, fromOpen, toOpen, trials };
}

const REACH_ML = 20;
const WITHIN_ML = 0.2;
/** Starts tried when the present one does not work. */
const TRIES = 8;

function stopOf(plan: Plan, targets: FractionTargets): number {
  return targets.stop_mL ?? deliveredAtEnd(plan);
}

function spanOf(plan: Plan, targets: FractionTargets, stop_mL: number): { from_mL: number; to_mL: number } | undefined {
  const component = componentOf(plan, targets.target);
  const loss = deliveredAmount(plan, component, stop_mL) - targets.recovered * poured(plan, targets.target);
  if (loss < 0 || poured(plan, targets.target) <= 0) return undefined;
  const to_mL = Math.min(stop_mL, lastVolume(plan, component, loss));
  const limits = targets.unwanted.map((ion): [number, number] => [componentOf(plan, ion), targets.carried * poured(plan, ion)]);
  if (targets.acid_mmol !== undefined) limits.push([0, targets.acid_mmol]);
  const from_mL = Math.max(0, ...limits.map(([k, most]) => firstVolume(plan, k, deliveredAmount(plan, k, stop_mL) - most)));
  return from_mL <= to_mL ? { from_mL, to_mL } : undefined;
}

function fractionOf(plan: Plan, targets: FractionTargets, change_mL: number, stop_mL: number): Fraction {
  const amount = (k: number): number => Math.max(0, deliveredAmount(plan, k, stop_mL) - deliveredAmount(plan, k, change_mL));
  const shareOf = (ion: IonId): number => share(amount(componentOf(plan, ion)), poured(plan, ion));
  const acid_mmol = amount(0);
  return {
    volume_mL: Math.max(0, stop_mL - change_mL),
    recovered: shareOf(targets.target),
    carried: Math.max(0, ...targets.unwanted.map(shareOf)),
    acid_mmol,
    NaOH_mL: acid_mmol / targets.NaOH_M,
  };
}

function deliveredAmount(plan: Plan, component: number, delivered_mL: number): number {
  return columnAt(plan, FRAME.parts + plan.components + component, delivered_mL);
}

/** Largest delivered volume at which no more than this has been delivered. */
function lastVolume(plan: Plan, component: number, amount: number): number {
  const column = FRAME.parts + plan.components + component;
  let frame = plan.count - 1;
  while (frame > 0 && plan.rows[frame * plan.stride + column] > amount) frame -= 1;
  return crossing(plan, column, frame, amount);
}

/** Smallest delivered volume at which at least this has been delivered. */
function firstVolume(plan: Plan, component: number, amount: number): number {
  const column = FRAME.parts + plan.components + component;
  let frame = 0;
  while (frame < plan.count && plan.rows[frame * plan.stride + column] < amount) frame += 1;
  return frame === 0 ? 0 : crossing(plan, column, frame - 1, amount);
}

/** Volume between a frame and the next at which a growing column passes a value. */
function crossing({ rows, stride, count }: Plan, column: number, frame: number, value: number): number {
  const from = rows[frame * stride + FRAME.delivered];
  if (frame + 1 >= count) return from;
  const low = rows[frame * stride + column];
  const high = rows[(frame + 1) * stride + column];
  const step = rows[(frame + 1) * stride + FRAME.delivered] - from;
  return high > low ? from + step * Math.min(1, Math.max(0, (value - low) / (high - low))) : from + step;
}

function componentOf(plan: Plan, ion: IonId): number {
  return plan.ions.indexOf(ion) + 1;
}

function poured(plan: Plan, ion: IonId): number {
  return plan.results.loaded[`${ion}_mmol`] ?? 0;
}

function share(part: number, whole: number): number {
  return whole > 0 ? part / whole : 0;
}

/** Where the eluent before an entry was first poured: an earlier change would take away what came before it. */
function begunAt(plan: Plan, entry: number): number {
  let begun = 0;
  let liquid: string | undefined;
  for (const event of plan.events.filter((event) => event.entry >= 0 && event.entry < entry && !event.refused)) {
    if (event.action?.do !== 'pour') continue;
    if (event.action.liquid !== liquid) begun = event.delivered_mL;
    liquid = event.action.liquid;
  }
  return begun;
}

async function firstThatWorks(places: readonly number[], works: (place: number) => Promise<boolean>): Promise<number | undefined> {
  for (const place of places) if (await works(place)) return place;
  return undefined;
}

/** Bisects between a place that works and one that does not; the place returned works. */
async function bound(good: number, bad: number, within: number, works: (place: number) => Promise<boolean>): Promise<number> {
  let [inside, outside] = [good, bad];
  while (Math.abs(outside - inside) > within) {
    const middle = (inside + outside) / 2;
    if (await works(middle)) inside = middle;
    else outside = middle;
  }
  return inside;
}

function spread(low: number, high: number): number[] {
  return Array.from({ length: TRIES }, (_, i) => low + ((i + 0.5) / TRIES) * (high - low));
}
