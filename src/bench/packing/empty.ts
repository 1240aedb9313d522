import type { Scenario } from '../../../sim/terms/types.ts';
import { patched } from '../../store/keep/difference.ts';
import type { Json } from '../../store/keep/saved.ts';
import type { Moment } from '../../store/threads/planner.ts';

// What the bench has to know of an empty tube before the controls that fill it are there.

const NEAR_CM = 0.5;

type Filled = Pick<Moment, 'events'>;

export function beganEmpty({ values }: Pick<Scenario, 'values'>): boolean {
  return values['bench.packed'] === 0;
}

/** Whether a run began with an empty tube and no liquid has been poured yet. */
export function awaitsResin(scenario: Pick<Scenario, 'values'>, { events }: Filled): boolean {
  return beganEmpty(scenario) && !events.some(({ action, refused }) => action?.do === 'pour' && !refused);
}

/** Portions of slurry poured. */
export function portionsIn({ events }: Filled): number {
  return events.filter(({ action, refused }) => action?.do === 'pack' && !refused).length;
}

/** Settled resin that was poured in, mL. */
export function resinIn({ events }: Filled): number {
  return events.reduce((sum, { action, refused }) => sum + (action?.do === 'pack' && !refused ? action.resin_mL : 0), 0);
}

/** cm by which resin stands above the wanted height, below it negative; 0 within half a centimetre, since the height is asked for as about so much. A choice. */
export function amiss_cm({ values }: Pick<Scenario, 'values'>, bed_cm: number): number {
  const off = bed_cm - values['bed.length_cm'];
  return Math.abs(off) > NEAR_CM ? off : 0;
}

/** The same scenario with the tube empty. */
export function emptied(json: Json): Json {
  return patched(json, { bench: { packed: 0 } });
}
