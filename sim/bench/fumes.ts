import { AZEOTROPE_M } from '../chemistry/index.ts';
import { exp } from '../math/elementary.ts';

const MIN_PER_H = 60;

/** Molarity of acid that has stood open, losing the share `perHour` of what it has above the azeotrope. */
export function fumedAcid(acid_M: number, perHour: number, time_min: number): number {
  if (perHour <= 0 || acid_M <= AZEOTROPE_M) return acid_M;
  return AZEOTROPE_M + (acid_M - AZEOTROPE_M) * exp((-perHour * time_min) / MIN_PER_H);
}
