import type { IonId } from './ions.ts';

// Chloro-complexes of the metals in hydrochloric acid.

/** Constants that make the exchange curves: they stand for exchange, not for spectroscopic speciation. */
export interface ExchangeConstants {
  readonly logBeta: readonly [number, number, number, number];
  /** null: the ion makes no anion that the resin takes up. */
  readonly logK: number | null;
  readonly logKH: number | null;
  /** Charge number of the anion taken up, and of the bare cation. */
  readonly z: 1 | 2;
  readonly zM: 2 | 3;
}

/** Least-squares through recalled D points (derived from memory); Ni assumed. See DEVELOPERS.md. */
export const EXCHANGE_CONSTANTS: Readonly<Record<IonId, ExchangeConstants>> = {
  Co: { logBeta: [-0.664, -1.372, -2.897, -5.334], logK: 2.005, logKH: -2.044, z: 2, zM: 2 },
  Ni: { logBeta: [-1.5, -4, -9, -12], logK: null, logKH: null, z: 2, zM: 2 },
  Mn: { logBeta: [-0.452, -1.455, -2.302, -4.761], logK: 0.939, logKH: -2.307, z: 2, zM: 2 },
  Cu: { logBeta: [-0.376, -0.203, -2.227, -1.943], logK: 0.734, logKH: -2.975, z: 2, zM: 2 },
  Zn: { logBeta: [-0.016, -0.104, -0.379, -0.338], logK: 2.458, logKH: -1.466, z: 2, zM: 2 },
  Fe3: { logBeta: [0.665, -0.044, -1.487, -3.431], logK: 4.142, logKH: -2.419, z: 1, zM: 3 },
  Fe2: { logBeta: [-0.512, -1.472, -2.713, -5.043], logK: 0.754, logKH: -2.208, z: 2, zM: 2 },
  Cd: { logBeta: [2.081, 2.393, 2.163, 1.586], logK: 2.999, logKH: -1.418, z: 2, zM: 2 },
};

/** Shares of M, MCl, ... MCl4 (and, last, HMCl4) at mean HCl activity `a`, from the exchange constants; they add to 1. */
export function exchangeFractions(ion: IonId, a: number): number[] {
  const { logBeta, logKH } = EXCHANGE_CONSTANTS[ion];
  const terms = [1, ...logBeta.map((log, n) => 10 ** log * a ** (n + 1))];
  terms.push(logKH === null ? 0 : 10 ** logKH * terms[4] * a);
  const sum = terms.reduce((total, term) => total + term, 0);
  return terms.map((term) => term / sum);
}
