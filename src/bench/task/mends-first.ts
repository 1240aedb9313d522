import { holdsAir } from '../../../sim/bench/index.ts';
import type { Step } from '../../../sim/teach/index.ts';
import type { Moment } from '../../store/threads/planner.ts';

/**
 * Whether the bed is to be mended before a step is begun: a dry bed before anything is poured, one with air in it before the sample is.
 * "or": some of its air may stay whatever is done, so that the portion can still be chosen.
 */
export function mendsFirst({ ails }: Pick<Moment, 'ails'>, { role, liquid }: Pick<Step, 'role' | 'liquid'>): 'must' | 'or' | undefined {
  if (liquid === '') return undefined;
  if (ails.dry) return 'must';
  return role === 'load' && holdsAir(ails) ? 'or' : undefined;
}

export const MEND_FIRST = 'Mend the bed first';
