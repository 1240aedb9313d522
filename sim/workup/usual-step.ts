import type { Receiver } from '../flask/index.ts';
import type { Parameters } from '../terms/types.ts';
import type { WorkUpAction } from './actions.ts';
import { titreInHand, type WorkUpState } from './bench.ts';
import { defaultProcedure } from './procedure.ts';

/** The step of the usual order that comes after the furthest one taken; undefined when all is titrated. */
export function usualStep(receiver: Receiver, state: WorkUpState, values: Parameters): WorkUpAction | undefined {
  const steps = defaultProcedure(receiver, values);
  const done = state.events.filter(({ refused }) => !refused).map(({ action }) => action);
  const first = steps.findIndex((step) => step.do === 'portion');
  if (first < 0) return state.portion ? nextOf(state, steps.slice(1), sincePortion(done)) : nextOf(state, steps, done);
  const flasks = steps.filter((step) => step.do === 'portion').length;
  const one = steps.slice(first, first + (steps.length - first) / flasks);
  if (!state.portion) return state.flask_mL !== null ? one[0] : steps[state.onGlass ? 1 : 0];
  const taken = done.filter((action) => action.do === 'portion').length;
  return nextOf(state, one, sincePortion(done)) ?? (taken < flasks ? one[0] : undefined);
}

/** The next step of one flask, from what was done to it. */
function nextOf(state: WorkUpState, steps: readonly WorkUpAction[], mine: readonly WorkUpAction[]): WorkUpAction | undefined {
  const titre = titreInHand(state);
  if (titre) return titre.pink ? undefined : steps.at(-1);
  const furthest = steps.findLastIndex((step) => mine.some((action) => sameKind(step, action)));
  const swirled = steps[furthest + 1]?.do === 'swirl' && mine.at(-1)?.do === 'swirl';
  return steps[Math.min(furthest + (swirled ? 2 : 1), steps.length - 1)];
}

function sincePortion(done: readonly WorkUpAction[]): readonly WorkUpAction[] {
  return done.slice(done.findLastIndex((action) => action.do === 'portion'));
}

/** Swirling comes twice, so it is recognised by being the last thing done. */
function sameKind(a: WorkUpAction, b: WorkUpAction): boolean {
  if (a.do === 'swirl' || a.do !== b.do) return false;
  return a.do !== 'add' || (b.do === 'add' && a.reagent === b.reagent);
}
