import { settlingTime } from '../../../sim/packing/index.ts';
import { beadOf, sectionOf } from '../../../sim/terms/geometry.ts';
import { LIMITS } from '../../../sim/terms/limits.ts';
import type { Action, Log, Scenario } from '../../../sim/terms/types.ts';
import { dropAt } from '../../store/drop.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { fixed, millilitres, withUnit } from '../../ui/text/format.ts';
import { amiss_cm, portionsIn, resinIn } from './empty.ts';

// Filling an empty tube with resin: what it takes, and how far it is in words.

export type Packing = Extract<Action, { do: 'pack' }>;

/** Share of the resin that is offered at first, and a portion later, mL: to look between them. A choice. */
const FIRST_SHARE = 0.8;
const LATER_ML = 0.5;
/** Least that can be poured, mL. */
const LEAST_ML = LIMITS['pack.resin_mL'].step;
/** mL let through to look at the drip. A choice. */
const LOOK_ML = 1;
/** A fast drip, drops a minute; common practice, no source. */
const BRISK = '25 to 60';

type Filled = Pick<Moment, 'events'>;

/** Settled resin that is offered, mL: most of the bed at first, then half a spoonful, or the rest where that is less. */
export function offered_mL(scenario: Pick<Scenario, 'values'>, moment: Filled): number {
  const missing_mL = missing(scenario, moment);
  if (portionsIn(moment) === 0) return tenths(FIRST_SHARE * missing_mL);
  return missing_mL < LEAST_ML ? LATER_ML : Math.min(LATER_ML, tenths(missing_mL));
}

/** How far the first portion that is offered goes, and how much is needed in all. */
export function firstWords(scenario: Pick<Scenario, 'values'>, moment: Filled): string {
  const offered = offered_mL(scenario, moment);
  return `${millilitres(offered, 1)} of resin settle to about ${withUnit(fixed(offered / sectionOf(scenario.values), 1), 'cm')}; ${wanted(scenario)} take about ${millilitres(missing(scenario, moment), 1)}: add the rest in small portions.`;
}

/** What is missing of the wanted height, or too much. */
export function judgedWords(scenario: Pick<Scenario, 'values'>, moment: Filled & Pick<Moment, 'bed_cm'>): string {
  const off = amiss_cm(scenario, moment.bed_cm);
  if (off > 0) return `That is ${withUnit(fixed(off, 1), 'cm')} too much: the band has farther to go, and it drips more slowly.`;
  return off < 0 ? `Too little: ${wanted(scenario)} take about ${millilitres(Math.max(LEAST_ML, missing(scenario, moment)), 1)} more.` : 'High enough.';
}

function wanted({ values }: Pick<Scenario, 'values'>): string {
  return withUnit(fixed(values['bed.length_cm'], 0), 'cm');
}

/** Settled resin that the wanted height still takes, mL. */
function missing({ values }: Pick<Scenario, 'values'>, moment: Filled): number {
  return sectionOf(values) * values['bed.length_cm'] - resinIn(moment);
}

function tenths(volume_mL: number): number {
  return Math.round(volume_mL * 10) / 10;
}

/** A portion of slurry and the whole minutes that it takes to settle. */
export function portion({ values }: Pick<Scenario, 'values'>, action: Packing): Log {
  const slurry_cm = (2 * action.resin_mL) / sectionOf(values);
  return [action, { do: 'wait', until: { elapsed_min: Math.ceil(settlingTime(slurry_cm, beadOf(values))) } }];
}

/** Whether the resin stands about as high as wanted, or higher. */
export function isFull(scenario: Pick<Scenario, 'values'>, { bed_cm }: Pick<Moment, 'bed_cm'>): boolean {
  return amiss_cm(scenario, bed_cm) >= 0;
}

/** The clamp opened for a millilitre. */
export function look(): Log {
  return [
    { do: 'clamp', open_percent: 100 },
    { do: 'wait', until: { more_mL: LOOK_ML } },
  ];
}

/** How high the resin stands, as a ruler reads it, and whether that is enough. */
export function standsWords(scenario: Pick<Scenario, 'values'>, moment: Pick<Moment, 'events' | 'bed_cm' | 'level_cm' | 'settling_min'>): string {
  if (portionsIn(moment) === 0) return 'The tube is empty, the clamp shut. The height of the resin counts, not that of the liquid.';
  if (moment.settling_min > 0) return `The resin is settling: ${fixed(moment.settling_min, 1)} min to go.`;
  return `${fixed(moment.bed_cm, 1)} cm of resin under ${fixed(moment.level_cm, 1)} cm of liquid. ${judgedWords(scenario, moment)}`;
}

/** The drip beside the one that is wanted. */
export function dripWords(scenario: Scenario, moment: Pick<Moment, 'events' | 'bed_cm' | 'flow' | 'tip' | 'level_cm'>): string {
  const short = isFull(scenario, moment) ? '' : ` ${judgedWords(scenario, moment)} Undo to add it.`;
  if (moment.flow <= 0) return `No drops. A good column gives ${BRISK} a minute at the last millimetre.`;
  const drops = Math.round(moment.flow / dropAt(scenario, moment));
  return `${drops} drops a minute under ${fixed(moment.level_cm, 1)} cm of liquid. It slows as that sinks: ${BRISK} at the last millimetre is a good drip.${short}`;
}
