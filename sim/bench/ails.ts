import type { Bed, Column } from '../column/index.ts';
import { isDrained } from '../flow/index.ts';
import { gasVolume } from './refill-below.ts';
import { missingResin } from './top-up.ts';

/** What a bed suffers from that hands can mend, as it stands now. */
export interface Ails {
  /** Cells at the top have run dry. */
  readonly dry: boolean;
  /** Air between the beads, mL. */
  readonly air_mL: number;
  /** Resin that is missing from a hollow, mL. */
  readonly hollow_mL: number;
  /** A gap stands open beside the wall. */
  readonly gap: boolean;
}

/** Less is rounding, mL. */
const NO_HOLLOW_ML = 1e-6;

export function ailsOf(bed: Bed, column: Column): Ails {
  const hollow_mL = missingResin(bed, column);
  return { dry: isDrained(bed), air_mL: gasVolume(bed), hollow_mL: hollow_mL > NO_HOLLOW_ML ? hollow_mL : 0, gap: bed.crack.some((width) => width > 0) };
}
