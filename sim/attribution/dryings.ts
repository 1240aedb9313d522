import { sectionOf } from '../terms/geometry.ts';
import { AIR_ENTERS } from '../run/index.ts';
import type { RunEvent } from '../history/index.ts';
import type { Scenario } from '../terms/types.ts';
import type { Mistake } from './mistake.ts';
import type { Step, Whole } from './placed.ts';
import { type Repair, without } from './repairs.ts';

// Times in which the operator let the bed run dry, and how the log would have been without.

/** Liquid the careful operator leaves above the bed, cm. */
export const LEFT_CM = 0.1;

/** A time in which the bed was dry: from the entry of air to the action that ended it. */
export interface Drying {
  readonly event: RunEvent;
  readonly ended: Step | undefined;
  /** Idle waits in it. */
  readonly idle: readonly Step[];
}

export function dryingsOf(steps: readonly Step[], whole: Whole): Drying[] {
  return whole.events.flatMap((event): Drying[] => {
    if (!event.note?.startsWith(AIR_ENTERS)) return [];
    const ended = steps.find(({ action, time_min }) => (action.do === 'pour' || action.do === 'refill-from-below') && time_min >= event.time_min);
    const until = ended ? steps.indexOf(ended) : steps.length;
    return [
      { event, ended, idle: steps.slice(0, until).filter(({ action, open, at_mL }) => action.do === 'wait' && open > 0 && at_mL >= event.delivered_mL - 1e-9) },
    ];
  });
}

/** Repaired, the next liquid comes while a millimetre still stands above the bed. Its size is the time it lasted; `end_min` is the end of the run. */
export function dryingMistake({ event, ended, idle }: Drying, scenario: Scenario, end_min: number): Mistake {
  const left = sectionOf(scenario.values) * LEFT_CM;
  const at_mL = event.delivered_mL - left;
  const repair: Repair = (steps) => {
    let shift = 0;
    return without(idle.map(({ id }) => id))(steps).map((step) => {
      const late = ended !== undefined && step.at_mL > at_mL && step.at_mL <= ended.at_mL;
      // A receiver is changed a certain volume after the pour before it; later pours go by the level, which is unchanged.
      if (step.action.do === 'pour') shift = late ? at_mL - step.at_mL : 0;
      return late ? { ...step, at_mL } : step.action.do === 'receiver' ? { ...step, at_mL: step.at_mL + shift } : step;
    });
  };
  return {
    kind: 'dried-bed',
    what: event.note ?? '',
    size: (ended?.time_min ?? end_min) - event.time_min,
    entry: event.entry,
    time_min: event.time_min,
    delivered_mL: event.delivered_mL,
    repair,
  };
}
