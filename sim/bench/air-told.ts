import type { Ails } from './ails.ts';

// By itself, so that who only tells of the air fetches nothing else.

/** Air below this is not told of, mL: it does not show. A choice. */
const TOLD_ML = 0.05;

export function holdsAir({ dry, air_mL }: Pick<Ails, 'dry' | 'air_mL'>): boolean {
  return dry || air_mL >= TOLD_ML;
}
