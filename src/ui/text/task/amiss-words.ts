import { FAULTS } from '../../../../sim/faults/index.ts';
import type { RunEvent } from '../../../../sim/history/index.ts';
import { AIR_ENTERS } from '../../../../sim/run/index.ts';
import type { Fault } from '../../../../sim/terms/types.ts';
import { fixed, withUnit } from '../format.ts';

// What was amiss in a run beside the moments that were chosen: the faults imposed on it, and when its bed was dry.

export interface RunSoFar {
  readonly events: readonly RunEvent[];
  /** How far it has got, min. */
  readonly time_min: number;
}

/** In clauses for `lessonWords`. `faults`: those of the scenario; undefined while they are to be found by the reader. */
export function amissWords(run: RunSoFar, faults: readonly Fault[] | undefined): readonly string[] {
  const names = faults === undefined ? [] : imposedNames(run.events, faults);
  const dry = dryWords(run);
  return [
    ...(names.length === 0 ? [] : [`${names.length === 1 ? 'a fault was' : 'faults were'} imposed on this run (${names.join(', ')})`]),
    ...(dry === '' ? [] : [`the bed ran dry ${dry}: keep liquid above it`]),
  ];
}

/** Those of the scenario that the bed took, and those that came in the middle. */
function imposedNames(events: readonly RunEvent[], faults: readonly Fault[]): string[] {
  const begun = faults.filter(({ kind }) => !events.some(({ entry, note }) => entry < 0 && note?.startsWith(`fault ${kind} not imposed`)));
  const during = events.flatMap(({ action, refused }) => (action?.do === 'fault' && !refused ? [action.fault] : []));
  return [...new Set([...begun, ...during].map(({ kind }) => FAULTS[kind].label))];
}

/** "at 12.9 min, for 4.0 min": from the entry of air until liquid came onto the bed, or to the end. */
function dryWords({ events, time_min }: RunSoFar): string {
  const entries = events.filter(({ note }) => note?.startsWith(AIR_ENTERS));
  const wetted = events.filter(({ action, refused }) => !refused && (action?.do === 'pour' || action?.do === 'refill-from-below'));
  const minutes = (value: number): string => withUnit(fixed(value, 1), 'min');
  return entries
    .map((entry) => {
      const until = wetted.find((event) => event.time_min >= entry.time_min)?.time_min ?? time_min;
      return `at ${minutes(entry.time_min)}, for ${minutes(until - entry.time_min)}`;
    })
    .join(', and ');
}
