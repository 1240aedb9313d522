import { UNNAMED_RECEIVER } from '../../../sim/history/index.ts';

/** A receiver's name on the page: its label, or plainly "receiver" for one that no action has named. */
export function receiverName(label: string): string {
  return label === UNNAMED_RECEIVER ? 'receiver' : label;
}
