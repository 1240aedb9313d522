import { sectionOf } from '../terms/geometry.ts';
import type { Action, Log, Scenario } from '../terms/types.ts';
import { deliveredAfter, deliveredFrom, isLevelWait, type LevelWait } from './volumes.ts';

// The change of receiver taken earlier or later, as a change of the log.

/** Index of the change to the receiver meant for the target; -1 if the log never changes it. */
export function receiverEntry(log: Log): number {
  const last = log.findLastIndex((action) => action.do === 'receiver');
  return log.slice(0, last).some((action) => action.do === 'pour') ? last : -1;
}

/**
 * The log with its last change of receiver taken at another delivered volume. Where only a run
 * could tell that volume, it is shifted by what drains before or after it instead.
 */
export function shiftedReceiver(scenario: Scenario, log: Log, shift_mL: number): Log {
  const entry = receiverEntry(log);
  if (entry < 0 || shift_mL === 0) return log;
  const was = deliveredAfter(scenario, log)[entry];
  return was === undefined ? shiftedFromLevel(scenario, log, entry, shift_mL) : receiverAt(scenario, log, entry, Math.max(0, was + shift_mL));
}

/** The log with the change of receiver at `entry` taken at a delivered volume. */
export function receiverAt(scenario: Scenario, log: Log, entry: number, delivered_mL: number): Log {
  const rest = freed(log, entry);
  const after = deliveredAfter(scenario, rest);
  const { at_min: _min, at_mL: _mL, ...change } = log[entry];
  const next = after.findIndex((end) => end !== undefined && end > delivered_mL + 1e-9);
  // Dropping the two optional times leaves the same kind of action.
  return inserted(rest, next < 0 ? endOf(rest) : next, { ...change, at_mL: delivered_mL } as Action);
}

/** Without the change of receiver, and without the wait for a volume that was there for it. */
function freed(log: Log, entry: number): Log {
  const before = log[entry - 1];
  const waited = before?.do === 'wait' && ('more_mL' in before.until || 'delivered_mL' in before.until);
  return log.filter((_, i) => i !== entry && !(waited && i === entry - 1));
}

/**
 * Volumes are counted from the last wait for a level before the change, since what was poured before it may hang on the band. The
 * change moves as far as the liquid then above the bed and what is poured later reach; earlier, that much liquid is left standing.
 */
function shiftedFromLevel(scenario: Scenario, log: Log, entry: number, shift_mL: number): Log {
  const level = log.findLastIndex((action, i) => i < entry && isLevelWait(action));
  const was = deliveredFrom(scenario, log, level)?.[entry];
  if (was === undefined) return log;
  const target = was + shift_mL;
  const rest = freed(log, entry);
  if (target < 0) return leftStanding(scenario, rest, level, -target, log[entry]);
  const after = deliveredFrom(scenario, rest, level) ?? [];
  const next = after.findIndex((end, i) => i > level && (end === undefined || end > target + 1e-9));
  const at = next < 0 ? endOf(rest) : next;
  return inserted(rest, at, { do: 'wait', until: { more_mL: target - (after[at - 1] ?? 0) } }, log[entry]);
}

/** The last portions before the change drain less far; the rest of the liquid follows into the new receiver. */
function leftStanding(scenario: Scenario, log: Log, level: number, more_mL: number, change: Action): Log {
  const last = log[level];
  if (!isLevelWait(last)) return log;
  const first = firstPortion(log, level);
  const portions = log.slice(first, level).map((action) => (action.do === 'pour' ? action.volume_mL : 0));
  const { values } = scenario;
  const section = sectionOf(values);
  const room = section * (values['column.tube_cm'] - values['bed.length_cm'] - last.until.liquid_mm / 10) - Math.max(0, ...portions);
  const more_mm = (10 * Math.max(0, Math.min(more_mL, room))) / section;
  const raised = log.map((action, i) => (i >= first && i <= level && isLevelWait(action) ? higher(action, more_mm) : action));
  return inserted(raised, level + 1, change, last);
}

/** Back to the wait before the first portion in a row that may be left out. */
function firstPortion(log: Log, level: number): number {
  let first = level;
  while (first >= 2 && isLevelWait(log[first - 2]) && mayBeLeftOut(log[first - 1])) first -= 2;
  return first;
}

function mayBeLeftOut(action: Action): boolean {
  return action.do === 'pour' && action.unless !== undefined;
}

function higher(wait: LevelWait, more_mm: number): Action {
  return { ...wait, until: { liquid_mm: wait.until.liquid_mm + more_mm } };
}

/** Where the closing of the clamp at the end begins. */
export function endOf(log: Log): number {
  const last = log.at(-1);
  return last?.do === 'clamp' && last.open_percent === 0 ? log.length - 1 : log.length;
}

export function inserted(log: Log, at: number, ...actions: readonly Action[]): Log {
  return [...log.slice(0, at), ...actions, ...log.slice(at)];
}
