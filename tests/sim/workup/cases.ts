// Shared set-ups of the work-up tests.
import { CHEMISTRY, type Chemistry, type Component, COMPONENTS, type Totals } from '../../../sim/flask/balance.ts';
import type { Flask } from '../../../sim/flask/flask.ts';
import type { Titration } from '../../../sim/flask/titrate.ts';
import { rootOf } from '../../../sim/math/root.ts';
import { balanceIn } from '../../../sim/flask/flask.ts';

/** pKw 14.00 and one Ksp of Co(OH)2, as the check values were computed. */
export function chemistryWith(KspCo: number): Chemistry {
  return { ...CHEMISTRY, pKw: 14, Ksp: { ...CHEMISTRY.Ksp, Co: KspCo } };
}

export function totals(some: Partial<Record<Component, number>>, volume = 1): Totals {
  return Object.fromEntries(COMPONENTS.map((component) => [component, (some[component] ?? 0) / volume])) as Totals;
}

export function flaskWith(some: Partial<Record<Component, number>>, volume_mL: number, acetone_mL = 0): Flask {
  return { volume_mL, acetone_mL, temperature_C: 25, amounts: totals(some), solid: {}, edta_min: 0 };
}

/** 0.0100 M EDTA, eye limit 0.02 over 4 cm; titrant so slow that nickel keeps up. */
export const TITRATION: Titration = { EDTA_M: 0.01, threshold_A: 0.02, path_cm: 4, pour: 0.01, chemistry: CHEMISTRY };

export interface Portion {
  readonly acetate_mmol?: number;
  readonly pH?: number;
  /** Strong acid left after the pH was set, mmol. */
  readonly acid_mmol?: number;
  readonly acetone_mL?: number;
  readonly thiocyanate_g?: number;
  readonly Ni_mmol?: number;
}

/** 25.00 mL of 5.0 mM cobalt, brought to a pH with alkali, then indicator. */
export function portionFlask({ acetate_mmol = 5, pH = 6, acid_mmol = 0, acetone_mL = 25, thiocyanate_g = 1, Ni_mmol = 0 }: Portion = {}): Flask {
  const SCN = (1000 * thiocyanate_g) / 76.12;
  const with_ = (Na: number) => flaskWith({ Cl: 0.25 + 2 * Ni_mmol, Co: 0.125, Ni: Ni_mmol, Ac: acetate_mmol, NH4: SCN, SCN, Na }, 25 + acetone_mL, acetone_mL);
  const Na = rootOf((value) => balanceIn(with_(value), CHEMISTRY).pH - pH, 0, 20);
  return with_(Na - acid_mmol);
}
