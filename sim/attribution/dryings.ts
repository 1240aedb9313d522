import { sectionOf } from '../terms/geometry.ts';
import { dryTimesOf } from '../run/index.ts';
import type { RunEvent } from '../history/index.ts';
import type { Scenario } from '../terms/types.ts';
import type { Mistake } from './mistake.ts';
import type { Step, Whole } from './placed.ts';
import { type Repair, without } from './repairs.ts';

// Times in which the operator let the bed run dry, and how the log would have been without.

/** Liquid the careful operator leaves above the bed, cm. */
export const LEFT_CM = 0.1;

/** A time in which the bed was dry: from the entry of air to the action that ended it, with what was then done to mend the bed. */
export interface Drying {
  readonly event: RunEvent;
  readonly ended: Step | undefined;
  /** Idle waits in it. */
  readonly idle: readonly Step[];
  /** Stirring and pushing in from below, before it dried again. */
  readonly mended: readonly Step[];
}

const MENDING: Readonly<Record<string, string>> = { stir: 'stirred up', 'refill-from-below': 'filled from below' };

export function dryingsOf(steps: readonly Step[], whole: Whole): Drying[] {
  const times = dryTimesOf(whole.events);
  return times.map(({ event, ended: wetted }, i): Drying => {
    const next_min = times[i + 1]?.event.time_min ?? Number.POSITIVE_INFINITY;
    const mended = steps.filter(({ action, time_min }) => MENDING[action.do] && time_min >= event.time_min && time_min < next_min);
    const ended = wetted && steps.find(({ entry, action }) => entry === wetted.entry && action.do !== 'wait');
    const last = mended.at(-1);
    // What mending took stands as a wait just after it.
    const until = Math.max(ended ? steps.indexOf(ended) : steps.length, last ? steps.indexOf(last) + 2 : 0);
    const idle = steps
      .slice(0, until)
      .filter(({ action, open, at_mL }) => action.do === 'wait' && (open > 0 || mended.length > 0) && at_mL >= event.delivered_mL - 1e-9);
    return { event, ended, idle, mended };
  });
}

/** Repaired, the next liquid comes while a millimetre still stands above the bed, and nothing has to be mended. Its size is the time it lasted; `end_min` is the end of the run. */
export function dryingMistake({ event, ended, idle, mended }: Drying, scenario: Scenario, end_min: number): Mistake {
  const at_mL = event.delivered_mL - sectionOf(scenario.values) * LEFT_CM;
  const gone = [...idle, ...mended].map(({ id }) => id);
  const repair: Repair = (steps) => {
    let shift = 0;
    return without(gone)(steps).map((step) => {
      const late = ended !== undefined && step.at_mL > at_mL && step.at_mL <= ended.at_mL;
      // A receiver is changed a certain volume after the pour before it; later pours go by the level, which is unchanged.
      if (step.action.do === 'pour') shift = late ? at_mL - step.at_mL : 0;
      return late ? { ...step, at_mL, level_cm: LEFT_CM } : step.action.do === 'receiver' ? { ...step, at_mL: step.at_mL + shift } : step;
    });
  };
  const size = (ended?.time_min ?? end_min) - event.time_min;
  const how = [...new Set(mended.map(({ action }) => MENDING[action.do]))].join(' and ');
  return {
    kind: 'dried-bed',
    what: `air entered the bed; no liquid came for ${size.toFixed(1)} min${how ? `, and it was ${how} afterwards` : ''}`,
    size,
    entry: event.entry,
    time_min: event.time_min,
    delivered_mL: event.delivered_mL,
    repair,
  };
}
