// Receivers are known by their labels; the state knows them by slot.
import type { RunEvent } from './events.ts';

/** What the vessel under the tip is called until the log names one. */
const UNNAMED = 'beaker';

/** Receiver labels by slot, in the order in which they were first put under the tip. */
export function receiverLabels(events: readonly RunEvent[]): string[] {
  const labels = [UNNAMED];
  for (const { action, refused, delivered_mL } of events) {
    if (action?.do !== 'receiver' || refused) continue;
    if (namesFirst(labels, delivered_mL)) labels[0] = action.label;
    else if (!labels.includes(action.label)) labels.push(action.label);
  }
  return labels;
}

/** Whether a change of receiver only names the vessel that was there from the start: nothing has dripped into it yet. */
export function namesFirst(labels: readonly string[], delivered_mL: number): boolean {
  return labels.length === 1 && labels[0] === UNNAMED && delivered_mL === 0;
}
