import { EPSILON_BLUE, THIOCYANATE } from './constants.ts';
import { pow10, power } from '../math/elementary.ts';

// The blue of cobalt and thiocyanate in acetone. The constants are a surrogate: directions are safe, sizes illustrative.

/** Total over free aquo cobalt in thiocyanate (mol/L) at a volume share of acetone, and the share that is [Co(NCS)4]2-. */
export interface CobaltForms {
  readonly sideReaction: number;
  readonly blueShare: number;
}

export function cobaltForms(thiocyanate: number, acetoneShare: number): CobaltForms {
  const blue = pow10(THIOCYANATE.acetone * acetoneShare) * power(thiocyanate, 4);
  const sideReaction = 1 + THIOCYANATE.beta1 * thiocyanate + THIOCYANATE.beta2 * thiocyanate * thiocyanate + blue;
  return { sideReaction, blueShare: blue / sideReaction };
}

/** Absorbance of the blue complex (mol/L) near 620 nm over a path. */
export function blueAbsorbance(blue: number, pathCm: number): number {
  return EPSILON_BLUE.value * blue * pathCm;
}
