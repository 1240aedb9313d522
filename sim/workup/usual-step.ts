import type { Parameters } from '../terms/types.ts';
import type { WorkUpAction } from './actions.ts';
import { titreInHand, type WorkUpState } from './bench.ts';
import type { Receiver } from '../flask/flask.ts';
import { defaultProcedure } from './procedure.ts';

/** The step of the usual order that comes after the furthest one taken; undefined when all is titrated. */
export function usualStep(receiver: Receiver, state: WorkUpState, values: Parameters): WorkUpAction | undefined {
  const steps = defaultProcedure(receiver, values);
  const flasks = steps.filter((step) => step.do === 'aliquot').length;
  const first = steps.findIndex((step) => step.do === 'aliquot');
  const one = steps.slice(first, first + (steps.length - first) / flasks);
  const done = state.events.filter(({ refused }) => !refused).map(({ action }) => action);
  if (!state.aliquot) return state.flask_mL === null ? steps[0] : one[0];
  const mine = done.slice(done.findLastIndex((action) => action.do === 'aliquot'));
  const furthest = one.findLastIndex((step) => mine.some((action) => sameKind(step, action)));
  const titre = titreInHand(state);
  if (titre && !titre.pink) return one.at(-1);
  if (!titre) return one[Math.min(furthest + (one[furthest + 1]?.do === 'swirl' && mine.at(-1)?.do === 'swirl' ? 2 : 1), one.length - 1)];
  const taken = done.filter((action) => action.do === 'aliquot').length;
  return taken < flasks ? one[0] : undefined;
}

/** Swirling comes twice, so it is told by being the last thing done. */
function sameKind(a: WorkUpAction, b: WorkUpAction): boolean {
  if (a.do === 'swirl' || a.do !== b.do) return false;
  return a.do !== 'add' || (b.do === 'add' && a.reagent === b.reagent);
}
