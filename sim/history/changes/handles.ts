import type { RunEvent } from '../events.ts';
import type { Log } from '../../terms/types.ts';

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
