import type { Status } from '../terms/fields.ts';
import { IN_FLASK, ION_IDS, type IonId } from '../terms/ions.ts';
import type { InFlask } from '../terms/ions/ion.ts';

// Equilibrium constants and other fixed values of the work-up, each with where it comes from. 25 °C unless said.
// Activity is left out: pH is -log10 of the molarity of H+.

/** A fixed value with its provenance. */
export interface Constant {
  readonly value: number;
  readonly unit: string;
  readonly source: string;
  readonly status: Status;
}

export const PKW: Constant = { value: 13.995, unit: '', source: 'Harris, Quantitative Chemical Analysis 8e (2010), Table 6-1; CRC', status: 'memory' };
export const PKA_ACETIC: Constant = { value: 4.756, unit: '', source: 'Harris 8e, App. G, I = 0; about 4.56 at I = 0.1; an open table gives 4.76', status: 'memory' };
export const PKA_AMMONIUM: Constant = { value: 9.24, unit: '', source: 'Harris 8e, App. G (9.245), I = 0', status: 'memory' };

/** Tables differ by a factor of 24: a band of onset pH, never one sharp value. */
export const KSP_COBALT = {
  high: { value: 5.92e-15, unit: 'mol³/L³', source: 'value of CRC-type tables, read on a secondary page', status: 'read' },
  fresh: { value: IN_FLASK.Co.Ksp, unit: 'mol³/L³', source: 'pink, fresh: Smith and Martell vol. 4; Baes and Mesmer 1976', status: 'memory' },
  low: { value: 2.5e-16, unit: 'mol³/L³', source: 'Kelter, Mosher and Scott, Chemistry: The Practical Science (2009), Table A5.4', status: 'read' },
} as const satisfies Record<string, Constant>;

export const KSP = perIon(({ Ksp }) => Ksp);

/** Named sets of EDTA acid constants; the stability constants that belong to each go with it and are not mixed. */
export interface EdtaSet {
  readonly name: string;
  /** pKa1 to the last, most acidic first. */
  readonly pKa: readonly number[];
  readonly logK: Readonly<Record<IonId, number>>;
  readonly source: string;
  readonly status: Status;
}

const LOG_K_COOL = perIon(({ logK }) => logK.cool);

export const EDTA_SETS = {
  warm: { name: '25 °C, I = 0.1 M (Martell and Smith)', pKa: [0, 1.5, 2, 2.69, 6.13, 10.37], logK: perIon(({ logK }) => logK.warm), source: 'Harris 8e, pKa read on a secondary page', status: 'read' },
  cool: { name: '20 °C, I = 0.1 M (older)', pKa: [0, 1.5, 2, 2.66, 6.16, 10.24], logK: LOG_K_COOL, source: 'Harris 6e', status: 'memory' },
  four: { name: 'four constants of H4Y (older)', pKa: [1.99, 2.67, 6.16, 10.26], logK: LOG_K_COOL, source: 'Skoog and West; reproduces the table printed in Harvey 2000', status: 'memory' },
} as const satisfies Record<string, EdtaSet>;

/** Water exchange of Co(II) is about 100 times faster than that of Ni(II): 3.2e6 and 3.2e4 /s. Helm and Merbach 2005, Chem. Rev. 105, 1923, recalled. */
export const NICKEL_UPTAKE_MIN: Constant = { value: 1, unit: 'min', source: 'time in which nickel takes up EDTA to 63 %; inferred from the slow water exchange, not measured', status: 'assumed' };

/** Heat of water formation, kJ/mol. H2O(l) -68.315 and OH- -54.970 kcal/mol read; 57.1 is the school value and fits about 20 °C. */
export const NEUTRALISATION: Constant = { value: 55.8, unit: 'kJ/mol', source: 'enthalpies of formation at 25 °C, infinite dilution', status: 'derived' };
/** 11 kJ/mol from 9.5 mol/L and 5.4 from 5 mol/L: about 1.1 per mol/L. */
export const ACID_DILUTION: Constant = { value: 1.1, unit: 'kJ/mol per mol/L', source: 'NBS tables (Wagman et al. 1982), HCl.5H2O and HCl.10H2O', status: 'memory' };
export const HEAT_CAPACITY: Constant = { value: 4.18, unit: 'J/mL/K', source: 'water', status: 'memory' };

/** Surrogate for Co(II) and thiocyanate in water and acetone; the sign of what it shows is safe, the size is illustrative. */
export const THIOCYANATE = {
  beta1: 10,
  beta2: 15,
  /** log10 of beta4 per unit of acetone volume share. */
  acetone: 7,
  label: 'illustrative: fitted to qualitative facts, no published constants for 50 % acetone were found',
  status: 'assumed',
} as const;
export const EPSILON_BLUE: Constant = { value: 1700, unit: 'L/mol/cm', source: '[Co(NCS)4]2- near 620 nm, 1700 to 1900; Cotton et al. 1961, JACS 83, 4157', status: 'memory' };

/** g/mol, IUPAC abridged atomic weights, recalled. */
export const MOLAR_MASS = { NH4SCN: 76.12, Na2H2Y: 372.24, NaOH: 39.997, HCl: 36.461, Co: 58.933 } as const;
/** Ammonium thiocyanate cools its flask as it dissolves. */
export const THIOCYANATE_HEAT: Constant = { value: 22.6, unit: 'kJ/mol taken up', source: 'heat of solution of NH4SCN, CRC', status: 'memory' };

function perIon(fact: (inFlask: InFlask) => number): Readonly<Record<IonId, number>> {
  // Object.fromEntries forgets the keys, which are those of ION_IDS.
  return Object.fromEntries(ION_IDS.map((ion) => [ion, fact(IN_FLASK[ion])])) as Record<IonId, number>;
}
