import type { RunEvent } from '../history/index.ts';
import { AIR_ENTERS } from './run.ts';

/** A time in which the bed was dry: from the entry of air to the pour or the push from below that ended it. */
export interface DryTime {
  readonly event: RunEvent;
  /** Undefined while nothing has come onto the bed since. */
  readonly ended: RunEvent | undefined;
}

export function dryTimesOf(events: readonly RunEvent[]): DryTime[] {
  const wetted = events.filter(({ action, refused }) => !refused && (action?.do === 'pour' || action?.do === 'refill-from-below'));
  return events
    .filter(({ note }) => note?.startsWith(AIR_ENTERS))
    .map((event) => ({ event, ended: wetted.find(({ time_min }) => time_min >= event.time_min) }));
}
