import type { Receiver } from '../../../sim/flask/index.ts';
import type { Parameters } from '../../../sim/terms/types.ts';
import type { Bench, Dose, ReagentId, Reading, WorkUpAction, WorkUpEvent } from '../../../sim/workup/index.ts';
import { fixed, millilitres, withUnit } from './format.ts';

// Steps of the work-up in words: what is to be done, what was done, what is seen.

/** What is weighed. */
const SOLID = 'ammonium thiocyanate';

/** What an action asks for. */
export function stepWords(action: WorkUpAction, bench: Bench): string {
  if (action.do === 'transfer') return transferWords(action.rinses, action.rinse_mL);
  if (action.do === 'make up') return `water to the mark of the ${action.to_mL} mL flask`;
  if (action.do === 'portion') return `${action.mL} mL by pipette into a fresh flask`;
  if (action.do === 'swirl') return `swirl for ${fixed(action.min, 1)} min`;
  if (action.do === 'wait') return action.ice ? `${action.min} min in ice` : `wait ${action.min} min`;
  const label = 'g' in action.dose ? SOLID : bench.reagents[action.reagent].label;
  return `${label}, ${doseWords(action.dose, action.reagent)}`;
}

function transferWords(rinses: number, rinse_mL: number): string {
  const rinsed =
    rinses === 0 ? 'not rinsed' : `rinsed ${rinses === 1 ? 'once' : rinses === 2 ? 'twice' : `${rinses} times`} with ${millilitres(rinse_mL)} of water`;
  return `transfer into a flask, receiver ${rinsed}`;
}

function doseWords(dose: Dose, reagent: ReagentId): string {
  if ('drops' in dose) return dose.drops === 1 ? 'one drop' : `${dose.drops} drops`;
  if ('mL' in dose) return millilitres(dose.mL, 2);
  if ('g' in dose) return withUnit(fixed(dose.g, 2), 'g');
  if (dose.until === 'pink') return 'until the last blue has gone';
  const side = sideOf(reagent);
  return `until the pH stays at ${fixed(dose.until.pH, 1)} or ${side} it; the last drop can carry it far, and the meter moves on while lumps of hydroxide dissolve`;
}

/** What was done, with the amount that went in. */
export function doneWords({ action, used, reading }: WorkUpEvent, bench: Bench): string {
  if (action.do !== 'add') return stepWords(action, bench);
  const { label } = bench.reagents[action.reagent];
  if ('g' in action.dose) return `${withUnit(fixed(used, 2), 'g')} of ${SOLID}`;
  // What ran in is known from the burette alone, with its error of reading.
  if (action.reagent === 'EDTA' && reading)
    return `${label}${dropsWords(used, action.dose, bench.values)}: the burette reads ${millilitres(reading.burette_mL, 2)}`;
  return `${millilitres(used, 2)} of ${label}${dropsWords(used, action.dose, bench.values)}${restWords(action.dose, action.reagent)}`;
}

/** The pH that was asked for is that at rest, and the last drop goes beyond it. */
function restWords(dose: Dose, reagent: ReagentId): string {
  return 'until' in dose && dose.until !== 'pink' ? `, so that the pH stays at ${fixed(dose.until.pH, 1)} or ${sideOf(reagent)} it` : '';
}

function sideOf(reagent: ReagentId): string {
  return reagent === 'NaOH' ? 'above' : 'below';
}

/** What the meter shows after a step; beside a pH that was asked for it is told that it is the one of this moment. */
export function meterWords({ action }: WorkUpEvent, { pH }: Reading): string {
  const asked = action.do === 'add' && 'until' in action.dose && action.dose.until !== 'pink';
  return `${asked ? 'the meter right now: ' : ''}pH ${fixed(pH, 2)}`;
}

function dropsWords(used: number, dose: Dose, values: Parameters): string {
  if ('mL' in dose || used === 0) return '';
  const drops = Math.round(used / values['workup.drop_mL']);
  return 'drops' in dose || drops < 100 ? ` (${drops} ${drops === 1 ? 'drop' : 'drops'})` : '';
}

/** How the flask looks: the liquid, and what stands in it. */
export function seenWords({ appearance }: Pick<Reading, 'appearance'>): string {
  return appearance.solid === '' ? `clear, ${appearance.liquid}` : `${appearance.liquid} liquid with ${appearance.solid}`;
}

/** The same in a few words, for a table. */
export function seenShort({ appearance: { liquid, solid } }: Pick<Reading, 'appearance'>): string {
  const solids = solid.split('; ').flatMap((words) => /\S+ hydroxide/.exec(words)?.[0] ?? []);
  return solids.length === 0 ? liquid : `${liquid}, ${solids.join(', ')}`;
}

/** A beaker that holds less is empty, mL: a drop is about 0.05 mL. */
const EMPTY_ML = 0.05;

/** Message for an empty beaker; undefined if it holds liquid. `beakers` is the number of beakers. */
export function emptyWords({ volume_mL }: Receiver, beakers: number): string | undefined {
  if (volume_mL > EMPTY_ML) return undefined;
  return `This receiver is empty: there is nothing to work up. ${beakers > 1 ? 'Choose another one above.' : 'Collect the cobalt on the bench first.'}`;
}
