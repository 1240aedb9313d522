import type { Log } from '../../terms/types.ts';
import type { Plan } from '../plan.ts';
import { movedEluent } from './edit.ts';
import { switchWindow } from './switch-window.ts';
import type { FractionTargets } from './targets.ts';

// When another eluent may be started, by trial runs.

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
