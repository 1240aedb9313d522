import type { IonId } from '../terms/ions.ts';
import { EDTA_SETS, type EdtaSet } from './constants.ts';
import { log10, pow10 } from '../math/elementary.ts';

/** How free EDTA is protonated at one pH. */
export interface Protonation {
  /** Share of free EDTA that is Y4-. */
  readonly alpha: number;
  /** Mean number of protons on it. */
  readonly protons: number;
}

/** Share of Y4- and mean protons of free EDTA: alpha = 1 / sum of beta_j h^j. */
export function protonationAt(pH: number, set: EdtaSet = EDTA_SETS.warm): Protonation {
  let logBeta = 0;
  let sum = 1;
  let bound = 0;
  for (let j = 1; j <= set.pKa.length; j++) {
    logBeta += set.pKa[set.pKa.length - j];
    const term = pow10(logBeta - j * pH);
    sum += term;
    bound += j * term;
  }
  return { alpha: 1 / sum, protons: bound / sum };
}

/** log10 of the conditional constant of the EDTA complex at one pH; `sideReaction` is total over free metal without EDTA. */
export function logConditional(ion: IonId, pH: number, set: EdtaSet = EDTA_SETS.warm, sideReaction = 1): number {
  return set.logK[ion] + log10(protonationAt(pH, set).alpha / sideReaction);
}

/** -log10 of the free metal, both totals in mol/L, at a conditional constant: M - x = x K (L / (1 + K x)). */
export function pMetal(metal: number, ligand: number, conditional: number): number {
  const b = 1 + conditional * (ligand - metal);
  const root = Math.sqrt(b * b + 4 * conditional * metal);
  return -log10(b > 0 ? (2 * metal) / (b + root) : (root - b) / (2 * conditional));
}
