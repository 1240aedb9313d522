import { sectionOf } from '../terms/geometry.ts';
import type { Action, Log, Scenario, Until } from '../terms/types.ts';

// Delivered volumes of a log, worked out from what is poured and how far it is let down, without running it.

interface Bench {
  /** mL above the bed, with what a reservoir still holds. */
  above: number;
  delivered: number;
  open: boolean;
  known: boolean;
}

/** mL delivered when each action is done; undefined from the first wait or pour on that hangs on what only a run can tell. */
export function deliveredAfter(scenario: Scenario, log: Log): (number | undefined)[] {
  const section = sectionOf(scenario.values);
  const bench: Bench = { above: (section * scenario.values['bench.start_head_mm']) / 10, delivered: 0, open: false, known: true };
  return log.map((action) => {
    take(bench, action, section);
    return bench.known ? bench.delivered : undefined;
  });
}

export type LevelWait = Extract<Action, { do: 'wait' }> & { readonly until: { readonly liquid_mm: number } };

export function isLevelWait(action: Action): action is LevelWait {
  return action.do === 'wait' && 'liquid_mm' in action.until;
}

/**
 * mL delivered after the wait for a level at `from`, for every action after it; 0 up to there. Undefined for all where the clamp is
 * shut at that wait, so that the level is not known either.
 */
export function deliveredFrom(scenario: Scenario, log: Log, from: number): (number | undefined)[] | undefined {
  const level = log[from];
  const clamp = log.slice(0, Math.max(0, from)).findLast((action) => action.do === 'clamp');
  if (level === undefined || !isLevelWait(level) || clamp?.do !== 'clamp' || clamp.open_percent === 0) return undefined;
  const section = sectionOf(scenario.values);
  const bench: Bench = { above: (section * level.until.liquid_mm) / 10, delivered: 0, open: true, known: true };
  return log.map((action, i) => {
    if (i > from) take(bench, action, section);
    return bench.known ? bench.delivered : undefined;
  });
}

function take(bench: Bench, action: Action, section: number): void {
  if (action.at_mL !== undefined) pass(bench, action.at_mL - bench.delivered);
  if (action.at_min !== undefined && bench.open) bench.known = false;
  if (action.do === 'pour' && action.unless) bench.known = false;
  else if (action.do === 'pour') bench.above += action.volume_mL;
  else if (action.do === 'clamp') bench.open = action.open_percent > 0;
  else if (action.do === 'wait') passUntil(bench, action.until, section);
  else if (action.do === 'refill-from-below' || action.do === 'stir') bench.known = false;
}

function passUntil(bench: Bench, until: Until, section: number): void {
  if (!bench.open) return;
  if ('liquid_mm' in until) pass(bench, bench.above - (section * until.liquid_mm) / 10);
  else if ('more_mL' in until) pass(bench, until.more_mL);
  else if ('delivered_mL' in until) pass(bench, until.delivered_mL - bench.delivered);
  else bench.known = false;
}

function pass(bench: Bench, volume: number): void {
  const passed = Math.min(Math.max(0, volume), bench.above);
  bench.above -= passed;
  bench.delivered += passed;
}
