import { FAULTS } from '../../../../sim/faults/index.ts';
import type { Plan, RunEvent } from '../../../../sim/history/index.ts';
import { dryTimesOf } from '../../../../sim/run/index.ts';
import type { Fault } from '../../../../sim/terms/types.ts';
import { isHidden } from '../../../store/keep/mystery.ts';
import type { Session } from '../../../store/session.ts';
import { fixed, withUnit } from '../format.ts';

// What was amiss in a run beside the moments that were chosen: the faults imposed on it, and when its bed was dry.

export interface RunSoFar {
  readonly events: readonly RunEvent[];
  /** How far it has got, min. */
  readonly time_min: number;
}

/** The same of the run on the page: whole where it is over, else as far as it has got, for what its forecast has is no fact yet. */
export function amissIn({ store, faults, mystery }: Session, plan: Plan, over: boolean): readonly string[] {
  const { atPresent, present_min } = store;
  const run = over || !atPresent ? { events: plan.events, time_min: plan.logEnd.time_min } : { events: atPresent.events, time_min: present_min };
  return amissWords(run, isHidden(mystery) ? undefined : faults);
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
  const minutes = (value: number): string => withUnit(fixed(value, 1), 'min');
  return dryTimesOf(events)
    .map(({ event, ended }) => `at ${minutes(event.time_min)}, for ${minutes((ended?.time_min ?? time_min) - event.time_min)}`)
    .join(', and ');
}
