import { bottleName } from '../../../sim/terms/bottle-name.ts';
import { capital } from '../../../sim/terms/capital.ts';
import { type Ails, holdsAir } from '../../../sim/bench/index.ts';
import type { Action, Scenario } from '../../../sim/terms/types.ts';
import { millilitres } from '../../ui/text/format.ts';
import { NO_AIR } from '../words.ts';

/** mL of liquid above the bed that a push from below leaves, where there is room. A choice. */
const ABOVE_ML = 0.5;
/** The same for a bed without air in it. A choice. */
const USUAL_ML = 3;

/** What is pushed in from below unless the reader says otherwise, in halves of a mL: as much as drives the air out, and a little more. */
export function pushed_mL({ air_mL }: Ails, room_mL: number): number {
  const wanted_mL = air_mL > 0 ? Math.ceil(2 * (air_mL + ABOVE_ML)) / 2 : USUAL_ML;
  return Math.max(0.5, Math.min(wanted_mL, Math.floor(2 * (air_mL + room_mL)) / 2));
}

/** A cure and what it needs, on its press: "Shut the clamp and push in 3.0 mL". */
export function pressWords(actions: readonly Action[], { liquids }: Pick<Scenario, 'liquids'>): string {
  const parts = actions.map((action) => partWords(action, liquids));
  return capital([parts.slice(0, -1).join(', '), ...parts.slice(-1)].filter((part) => part !== '').join(' and '));
}

function partWords(action: Action, liquids: Scenario['liquids']): string {
  switch (action.do) {
    case 'clamp':
      return 'shut the clamp';
    case 'pour':
      return `pour ${millilitres(action.volume_mL)} ${bottleName(action.liquid, liquids)}`;
    case 'refill-from-below':
      return `push in ${millilitres(action.volume_mL)}`;
    case 'top-up':
      return `top up ${millilitres(action.resin_mL)}`;
    default:
      return 'stir up';
  }
}

/** What is said of a bed that has been mended; `hides`: a gap at the wall is the reader's to find. */
export function airLeft({ ails }: { readonly ails: Ails }, hides = false): string {
  if (holdsAir(ails)) return `${millilitres(ails.air_mL)} of air is left in the bed.`;
  return ails.gap && !hides ? 'No air is left in the bed, but a gap is open at its wall: only stirring closes that.' : NO_AIR;
}
