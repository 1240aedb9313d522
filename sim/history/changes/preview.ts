import { collected } from '../effluent.ts';
import type { RunEvent } from '../events.ts';
import { deliveredAtEnd } from '../frames.ts';
import type { Plan, ReceiverResult } from '../plan.ts';
import { receiverLabels } from '../receivers.ts';
import { withReceivers } from '../record.ts';
import { movedReceiver } from './edit.ts';

/**
 * The run with one change of receiver elsewhere. The column does not know what stands under its tip, so nothing is computed
 * again: only which receiver took which part of what was delivered. Volumes hold to within the drop that hangs at the tip at the change.
 */
export function withReceiverMoved(plan: Plan, entry: number, delivered_mL: number): Plan {
  const to_mL = Math.min(Math.max(0, delivered_mL), deliveredAtEnd(plan));
  const moved = plan.events.find((event) => event.entry === entry);
  if (!moved) return plan;
  const events = placed(plan.events, { ...moved, delivered_mL: to_mL });
  const labels = receiverLabels(events);
  const changes = events.flatMap(({ action, refused, delivered_mL: from_mL }) =>
    action?.do === 'receiver' && !refused ? [{ slot: labels.indexOf(action.label), from_mL }] : [],
  );
  const rows = withReceivers(plan, (mL) => Math.max(0, changes.findLast(({ from_mL }) => from_mL <= mL)?.slot ?? 0));
  const log = movedReceiver(plan.log, plan.events, entry, to_mL);
  return { ...plan, log, events, labels, rows, results: { ...plan.results, receivers: shared(plan, labels, changes) }, recomputed_min: 0 };
}

function placed(events: readonly RunEvent[], moved: RunEvent): RunEvent[] {
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
