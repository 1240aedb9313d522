import { collected } from '../effluent.ts';
import type { RunEvent } from '../events.ts';
import { deliveredAtEnd } from '../frames.ts';
import type { Plan, ReceiverResult } from '../plan.ts';
import { receiverLabels } from '../receivers.ts';
import { withReceivers } from '../record.ts';
import type { Action, Log } from '../../terms/types.ts';

// Changes of a log that the handles on the volume axis make, and the run with a change of receiver moved. A log keeps its actions;
// what moves is when they are taken.

type Pour = Extract<Action, { do: 'pour' }>;

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

/**
 * The run with one change of receiver elsewhere. The column does not know what stands under its tip, so nothing is computed
 * again: only which receiver took which part of what was delivered. Volumes hold to within the drop that hangs at the tip at the change.
 */
export function withReceiverMoved(plan: Plan, entry: number, delivered_mL: number): Plan {
  const to_mL = Math.min(Math.max(0, delivered_mL), deliveredAtEnd(plan));
  const moved = plan.events.find((event) => event.entry === entry);
  if (!moved) return plan;
  const events = inOrder(plan.events, { ...moved, delivered_mL: to_mL });
  const labels = receiverLabels(events);
  const changes = events.flatMap(({ action, refused, delivered_mL: from_mL }) =>
    action?.do === 'receiver' && !refused ? [{ slot: labels.indexOf(action.label), from_mL }] : [],
  );
  const rows = withReceivers(plan, (mL) => Math.max(0, changes.findLast(({ from_mL }) => from_mL <= mL)?.slot ?? 0));
  const log = movedReceiver(plan.log, plan.events, entry, to_mL);
  return { ...plan, log, events, labels, rows, results: { ...plan.results, receivers: shared(plan, labels, changes) }, recomputed_min: 0 };
}

function inOrder(events: readonly RunEvent[], moved: RunEvent): RunEvent[] {
  const others = events.filter(({ entry }) => entry !== moved.entry);
  const at = others.findIndex(({ delivered_mL }) => delivered_mL > moved.delivered_mL);
  return [...others.slice(0, at < 0 ? others.length : at), moved, ...(at < 0 ? [] : others.slice(at))];
}

function shared(plan: Plan, labels: readonly string[], changes: readonly { slot: number; from_mL: number }[]): ReceiverResult[] {
  const end = plan.logEnd.delivered_mL;
  const stays = [{ slot: 0, from_mL: 0 }, ...changes].map((stay, i, all) => ({ ...stay, to_mL: Math.min(end, all[i + 1]?.from_mL ?? end) }));
  return labels.map((label, slot) => {
    const total: Record<string, number> = { volume_mL: 0, HCl_mmol: 0 };
    for (const { from_mL, to_mL } of stays.filter((stay) => stay.slot === slot)) {
      total['volume_mL'] += to_mL - from_mL;
      for (const [key, amount] of Object.entries(collected(plan, from_mL, to_mL))) total[key] = (total[key] ?? 0) + amount;
    }
    // Filled above with every key that a result has.
    return { ...total, label } as unknown as ReceiverResult;
  });
}
