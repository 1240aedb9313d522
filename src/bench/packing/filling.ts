import { settlingTime } from '../../../sim/packing/index.ts';
import { beadOf, sectionOf } from '../../../sim/terms/geometry.ts';
import type { Action, Log, Scenario } from '../../../sim/terms/types.ts';
import { dropAt } from '../../store/drop.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { fixed, millilitres, withUnit } from '../../ui/text/format.ts';
import { portionsIn } from './empty.ts';

// Filling an empty tube with resin: what it takes, and how far it is in words.

export type Packing = Extract<Action, { do: 'pack' }>;

/** Share of the resin that is offered at first, and a portion later, mL: to look between them. A choice. */
const FIRST_SHARE = 0.8;
const LATER_ML = 0.5;
/** The resin is high enough within this, cm. A choice. */
const NEAR_CM = 0.5;
/** mL let through to look at the drip. A choice. */
const LOOK_ML = 1;
/** A fast drip, drops a minute; common practice, no source. */
const BRISK = '25 to 60';

type Filled = Pick<Moment, 'events'>;

/** Settled resin that is offered, mL: most of the bed at first, half a spoonful later. */
export function offered_mL({ values }: Pick<Scenario, 'values'>, moment: Filled): number {
  return portionsIn(moment) > 0 ? LATER_ML : Math.round(10 * FIRST_SHARE * sectionOf(values) * values['bed.length_cm']) / 10;
}

/** How far the first portion that is offered goes. */
export function firstWords(scenario: Pick<Scenario, 'values'>, moment: Filled): string {
  const offered = offered_mL(scenario, moment);
  return `${millilitres(offered, 1)} of resin settle to about ${withUnit(fixed(offered / sectionOf(scenario.values), 1), 'cm')}: add the rest in small portions.`;
}

/** A portion of slurry and the whole minutes that it takes to settle. */
export function portion({ values }: Pick<Scenario, 'values'>, action: Packing): Log {
  const slurry_cm = (2 * action.resin_mL) / sectionOf(values);
  return [action, { do: 'wait', until: { elapsed_min: Math.ceil(settlingTime(slurry_cm, beadOf(values))) } }];
}

/** Whether the resin stands about as high as wanted. */
export function isFull({ values }: Pick<Scenario, 'values'>, { bed_cm }: Pick<Moment, 'bed_cm'>): boolean {
  return bed_cm > values['bed.length_cm'] - NEAR_CM;
}

/** The clamp opened for a millilitre. */
export function look(): Log {
  return [
    { do: 'clamp', open_percent: 100 },
    { do: 'wait', until: { more_mL: LOOK_ML } },
  ];
}

/** How high the resin stands, as a ruler reads it. */
export function standsWords(moment: Pick<Moment, 'events' | 'bed_cm' | 'level_cm' | 'settling_min'>): string {
  if (portionsIn(moment) === 0) return 'The tube is empty, the clamp shut. The height of the resin counts, not that of the liquid.';
  if (moment.settling_min > 0) return `The resin is settling: ${fixed(moment.settling_min, 1)} min to go.`;
  return `${fixed(moment.bed_cm, 1)} cm of resin under ${fixed(moment.level_cm, 1)} cm of liquid.`;
}

/** The drip beside the one that is wanted. */
export function dripWords(scenario: Scenario, moment: Pick<Moment, 'flow' | 'tip' | 'level_cm'>): string {
  if (moment.flow <= 0) return `No drops. A good column gives ${BRISK} a minute at the last millimetre.`;
  const drops = Math.round(moment.flow / dropAt(scenario, moment));
  return `${drops} drops a minute under ${fixed(moment.level_cm, 1)} cm of liquid. It slows as that sinks: ${BRISK} at the last millimetre is a good drip.`;
}
