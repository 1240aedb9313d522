import type { RunEvent } from '../events.ts';
import type { Action, Log } from '../../terms/types.ts';

// Changes of a log that the handles on the volume axis make. A log keeps its actions; what moves is when they are taken.

type Pour = Extract<Action, { do: 'pour' }>;

/** A place on the volume axis that can be dragged. */
export interface Handle {
  /** Index of the action in the log. */
  readonly entry: number;
  readonly kind: 'eluent' | 'receiver';
  readonly delivered_mL: number;
  readonly label: string;
}

/** Handles of a run: every change of receiver after liquid has run, and every first pour of another liquid. */
export function handlesOf(log: Log, events: readonly RunEvent[]): Handle[] {
  let liquid = '';
  return events.flatMap(({ entry, action, refused, delivered_mL }): Handle[] => {
    if (entry < 0 || entry >= log.length || refused || !action) return [];
    if (action.do === 'receiver' && delivered_mL > 0) return [{ entry, kind: 'receiver', delivered_mL, label: action.label }];
    if (action.do !== 'pour') return [];
    const changed = action.liquid !== liquid && delivered_mL > 0;
    liquid = action.liquid;
    return changed ? [{ entry, kind: 'eluent', delivered_mL, label: action.liquid }] : [];
  });
}

/** The log with a receiver change taken at another delivered volume; everything else stays where it was. */
export function movedReceiver(log: Log, events: readonly RunEvent[], entry: number, delivered_mL: number): Log {
  const placed = placedFrom(log, events, 0);
  const [moving] = placed.splice(entry, 1);
  const at = placed.findIndex((action) => (action.at_mL ?? 0) > delivered_mL);
  placed.splice(at < 0 ? placed.length : at, 0, { ...untimed(moving), at_mL: Math.max(0, delivered_mL) });
  return placed;
}

/**
 * The log with a change of eluent taken at another delivered volume. Later means more of the eluent before it, earlier
 * means less, as on the bench; all that follows moves with it.
 */
export function movedEluent(log: Log, events: readonly RunEvent[], entry: number, delivered_mL: number): Log {
  const was = deliveredAt(events, entry);
  const shift = Math.max(delivered_mL - was, -was);
  const before = placedFrom(log.slice(0, entry), events, 0);
  const after = placedFrom(log, events, entry)
    .slice(entry)
    .map((action) => (action.at_mL === undefined ? action : { ...action, at_mL: action.at_mL + shift }));
  return [...(shift < 0 ? noLater(shortened(before, -shift), was + shift) : lengthened(before, shift, was)), ...after];
}

/** Actions that were tied to a volume the shortened run no longer reaches before the change, at the change. */
function noLater(log: Action[], delivered_mL: number): Action[] {
  return log.map((action) => (action.at_mL !== undefined && action.at_mL > delivered_mL ? { ...action, at_mL: delivered_mL } : action));
}

/** Less of the last eluent: its last pours shrink, and vanish when nothing is left of them. */
function shortened(log: Action[], less_mL: number): Action[] {
  const kept = [...log];
  let left = less_mL;
  for (let i = kept.length - 1; i >= 0 && left > 1e-9; i--) {
    const action = kept[i];
    if (action.do !== 'pour') continue;
    const volume = action.volume_mL - left;
    left = Math.max(0, -volume);
    if (volume > 1e-9) kept[i] = { ...action, volume_mL: volume };
    else kept.splice(i, 1);
  }
  return kept;
}

/** More of the last eluent, poured when the change was due before: the liquid above the bed is low then. */
function lengthened(log: Action[], more_mL: number, at_mL: number): Action[] {
  const last = log.findLast((action): action is Pour => action.do === 'pour');
  if (!last || more_mL <= 1e-9) return log;
  const portion = Math.max(last.volume_mL, 1);
  const extra: Action[] = [];
  for (let poured = 0; poured < more_mL - 1e-9; poured += portion)
    extra.push({ ...untimed(last), volume_mL: Math.min(portion, more_mL - poured), at_mL: at_mL + poured } as Action);
  return [...log, ...extra];
}

/**
 * The log from `entry` on with every action tied to the delivered volume at which it was taken. Waits for volume or level
 * are then not needed; waits for time stay, since nothing is delivered meanwhile when the clamp is shut. What was left out stays
 * out, as a wait for nothing, and what was done is done whatever the band does.
 */
function placedFrom(log: Log, events: readonly RunEvent[], entry: number): Action[] {
  return log.flatMap((action, i): Action[] => {
    if (i < entry) return [action];
    if (wasLeftOut(events, i)) return [{ do: 'wait', until: { elapsed_min: 0 }, at_mL: deliveredAt(events, i) }];
    if (action.do === 'wait')
      return 'elapsed_min' in action.until || 'time_min' in action.until
        ? [timedWait(events, i)]
        : [{ ...action, until: { elapsed_min: 0 }, at_mL: deliveredAt(events, i) }];
    return [{ ...certain(untimed(action)), at_mL: deliveredAt(events, i) }];
  });
}

function timedWait(events: readonly RunEvent[], entry: number): Action {
  const end = events.find((event) => event.entry === entry);
  const start = events.findLast((event) => event.entry >= 0 && event.entry < entry);
  const elapsed = Math.max(0, (end?.time_min ?? 0) - (start?.time_min ?? 0));
  return { do: 'wait', until: { elapsed_min: elapsed }, at_mL: start?.delivered_mL ?? 0 };
}

function wasLeftOut(events: readonly RunEvent[], entry: number): boolean {
  return events.some((event) => event.entry === entry && !event.action);
}

function untimed(action: Action): Action {
  const { at_min: _min, at_mL: _mL, ...rest } = action;
  // Dropping the two optional times leaves the same kind of action.
  return rest as Action;
}

/** The same action, done whatever the band does. */
export function certain(action: Action): Action {
  if (action.do !== 'pour') return action;
  const { unless: _unless, ...rest } = action;
  return rest;
}

function deliveredAt(events: readonly RunEvent[], entry: number): number {
  return events.find((event) => event.entry === entry)?.delivered_mL ?? events.at(-1)?.delivered_mL ?? 0;
}
