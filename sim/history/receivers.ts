// Receivers are known by their labels; the state knows them by slot.
import type { RunEvent } from './events.ts';

/** Label in the record of the vessel under the tip until the log names one; kept runs refer to it by this. */
export const UNNAMED_RECEIVER = 'beaker';

/** Receiver labels by slot, in the order in which they were first put under the tip. */
export function receiverLabels(events: readonly RunEvent[]): string[] {
  const labels = [UNNAMED_RECEIVER];
  for (const { action, refused, delivered_mL } of events) {
    if (action?.do !== 'receiver' || refused) continue;
    if (namesFirst(labels, delivered_mL)) labels[0] = action.label;
    else if (!labels.includes(action.label)) labels.push(action.label);
  }
  return labels;
}

/** Whether a change of receiver only names the vessel that was there from the start: nothing has dripped into it yet. */
export function namesFirst(labels: readonly string[], delivered_mL: number): boolean {
  return labels.length === 1 && labels[0] === UNNAMED_RECEIVER && delivered_mL === 0;
}
