import { meanActivity } from './acid.ts';
import type { Status } from '../terms/fields.ts';
import { type IonId, IONS } from '../terms/ions.ts';
import { pow10, power } from '../math/elementary.ts';

// Chloro-complexes of the metals in hydrochloric acid: constants that make the exchange curves, and shares of the species to show.
// Ligand activity is the mean HCl activity in mol/kg, after Marcus, J. Phys. Chem. 63 (1959) 1000.

/** Constants that stand for exchange, not for spectroscopic speciation: log10, mol/kg. */
export interface ExchangeConstants {
  /** Overall constants of MCl to MCl4. */
  readonly logBeta: readonly [number, number, number, number];
  /** Exchange of MCl4 against chloride; null: the ion makes no anion that the resin takes up. */
  readonly logK: number | null;
  /** Association of MCl4 with H+, which brings the fall in strong acid. */
  readonly logKH: number | null;
  readonly status: Status;
}

/**
 * Least squares, with priors, through log10 D recalled from Kraus and Nelson, Proc. 1st Geneva Conf. 7 (1955) 113, Moore and Kraus,
 * J. Am. Chem. Soc. 74 (1952) 843, and Kraus and Moore, ibid. 75 (1953) 1460. Six constants an ion are not known one by one: only
 * the curve is meant. Its shape is good to about 0.2 in log10, its scale to 0.2 more; Cd and Fe(II) are the weakest. Ni assumed.
 */
export const EXCHANGE_CONSTANTS: Readonly<Record<IonId, ExchangeConstants>> = {
  Co: { logBeta: [-0.664, -1.372, -2.897, -5.334], logK: 2.005, logKH: -2.044, status: 'derived' },
  Ni: { logBeta: [-1.5, -4, -9, -12], logK: null, logKH: null, status: 'assumed' },
  Mn: { logBeta: [-0.452, -1.455, -2.302, -4.761], logK: 0.939, logKH: -2.307, status: 'derived' },
  Cu: { logBeta: [-0.376, -0.203, -2.227, -1.943], logK: 0.734, logKH: -2.975, status: 'derived' },
  Zn: { logBeta: [-0.016, -0.104, -0.379, -0.338], logK: 2.458, logKH: -1.466, status: 'derived' },
  Fe3: { logBeta: [0.665, -0.044, -1.487, -3.431], logK: 4.142, logKH: -2.419, status: 'derived' },
  Fe2: { logBeta: [-0.512, -1.472, -2.713, -5.043], logK: 0.754, logKH: -2.208, status: 'derived' },
  Cd: { logBeta: [2.081, 2.393, 2.163, 1.586], logK: 2.999, logKH: -1.418, status: 'derived' },
};

/** Overall constants of M, MCl, ... MCl4 and, last, HMCl4, no longer as logarithms: raising to powers costs most of a table. */
const OVERALL = perIon(({ logBeta, logKH }) => [1, ...logBeta.map((log) => pow10(log)), logKH === null ? 0 : pow10(logBeta[3] + logKH)]);
/** Exchange constant; 0 where there is no exchange. */
const EXCHANGE = perIon(({ logK }) => (logK === null ? 0 : pow10(logK)));

/** Shares of M, MCl, ... MCl4 and, last, HMCl4 at mean HCl activity `a`, from the exchange constants; they add to 1. */
export function exchangeFractions(ion: IonId, a: number): number[] {
  let power = 1;
  return shares(
    OVERALL[ion].map((constant) => {
      const term = constant * power;
      power *= a;
      return term;
    }),
  );
}

/** K of the exchange of MCl4 against chloride; 0 where there is none. */
export function exchangeConstant(ion: IonId): number {
  return EXCHANGE[ion];
}

/** One form of a metal in solution; water in its shell is not written. */
export interface ComplexSpecies {
  readonly label: string;
  readonly charge: number;
  /** Number of chloride ions. */
  readonly ligands: number;
}

/** Shares of the forms at one molarity, adding to 1, and what they rest on. */
export interface Speciation {
  readonly species: readonly ComplexSpecies[];
  readonly fractions: readonly number[];
  /** `read`: constants from a measured speciation; `operational`: from constants that stand for exchange. */
  readonly basis: 'read' | 'operational';
  readonly source: string;
}

/** Overall constants by number of chlorides, log10; the forms left out are not known. */
interface Measured {
  readonly logBeta: Readonly<Partial<Record<number, number>>>;
  readonly source: string;
}

const MEASURED: Readonly<Partial<Record<IonId, Measured>>> = {
  Co: {
    logBeta: { 1: -0.861, 4: -7.4 },
    source:
      'log β1 and β4 of three species in HCl at 25 °C: Uchikoshi et al., J. Solution Chem., about 2018, abstract (read); mean HCl activity in place of their chloride activity',
  },
  Fe3: {
    logBeta: { 1: 0.62, 2: 0.62 - 0.7, 3: 0.62 - 0.7 - 1.4, 4: 0.62 - 0.7 - 1.4 - 1.92 },
    source:
      'stepwise log k2 (at least) -0.7, k3 -1.40, k4 -1.92: Marcus, J. Inorg. Nucl. Chem. 12 (1960) 287, abstract (read); k1 0.62 recalled; HFeCl₄ of strong acid left out',
  },
  Cd: {
    logBeta: { 1: 1.95, 2: 1.95 + 0.55, 3: 1.95 + 0.55 - 0.15, 4: 1.95 + 0.55 - 0.15 - 0.7 },
    source: 'stepwise log k1 to k4 1.95, 0.55, -0.15, -0.70: Marcus, J. Phys. Chem. 63 (1959) 1000, abstract (read); HCdCl₃ left out',
  },
};

const OPERATIONAL_SOURCE = 'constants that stand for exchange, fitted to recalled curves; not a measured speciation';
/** X-ray scattering finds octahedral Ni(H2O)6-nCln with n up to 2 in strong acid (read, abstract). */
const NICKEL_LIGANDS = 2;
const NICKEL_SOURCE = 'log β1 -1.5 and β2 -4 assumed; that no more than two chlorides join, the shell staying octahedral, is read (X-ray scattering, abstract)';

/** Shares of the forms of an ion in HCl of `c` mol/L, for the page only; the run does not use them. */
export function speciation(ion: IonId, c: number): Speciation {
  const a = meanActivity(c);
  const measured = MEASURED[ion];
  const forms = species(ion);
  if (measured) {
    const fractions = shares(forms.map(({ ligands }) => pow10(measured.logBeta[ligands] ?? 0) * power(a, ligands)));
    return { species: forms, fractions, basis: 'read', source: measured.source };
  }
  const fractions = shares(exchangeFractions(ion, a).slice(0, forms.length));
  return { species: forms, fractions, basis: 'operational', source: ion === 'Ni' ? NICKEL_SOURCE : OPERATIONAL_SOURCE };
}

/** The forms of an ion that its speciation tells apart, from the bare cation on. */
export function species(ion: IonId): readonly ComplexSpecies[] {
  const measured = MEASURED[ion];
  const top = ion === 'Ni' ? NICKEL_LIGANDS : 4;
  const chloro = Array.from({ length: top + 1 }, (_, n) => n)
    .filter((n) => n === 0 || !measured || measured.logBeta[n] !== undefined)
    .map((n) => form(ion, n, 0));
  return EXCHANGE_CONSTANTS[ion].logKH === null || measured ? chloro : [...chloro, form(ion, 4, 1)];
}

function form(ion: IonId, ligands: number, protons: 0 | 1): ComplexSpecies {
  const charge = IONS[ion].charge - ligands + protons;
  const chlorides = ligands === 0 ? '' : `Cl${ligands > 1 ? '₀₁₂₃₄'[ligands] : ''}`;
  return { label: `${protons ? 'H' : ''}${ion.replace(/\d/, '')}${chlorides}${chargeText(charge)}`, charge, ligands };
}

function chargeText(charge: number): string {
  if (charge === 0) return '';
  return `${['', '', '²', '³'][Math.abs(charge)]}${charge > 0 ? '⁺' : '⁻'}`;
}

function perIon<T>(f: (constants: ExchangeConstants) => T): Readonly<Record<IonId, T>> {
  const { Co, Ni, Mn, Cu, Zn, Fe3, Fe2, Cd } = EXCHANGE_CONSTANTS;
  return { Co: f(Co), Ni: f(Ni), Mn: f(Mn), Cu: f(Cu), Zn: f(Zn), Fe3: f(Fe3), Fe2: f(Fe2), Cd: f(Cd) };
}

function shares(terms: readonly number[]): number[] {
  const sum = terms.reduce((total, term) => total + term, 0);
  return terms.map((term) => term / sum);
}

/** Why some ions make the tetrahedral MCl4 with ease. */
export interface LigandField {
  readonly dElectrons: number;
  /** Stabilisation lost on going from six neighbours to four, kJ/mol: recalled, good to 10; zero by symmetry for d5 (high spin) and d10. */
  readonly octahedralPreference_kJ_mol: number;
}

/** Not the whole story: Cu(II) still forms CuCl4 2-, because its tetrahedron flattens. */
export const LIGAND_FIELD: Readonly<Record<IonId, LigandField>> = {
  Co: { dElectrons: 7, octahedralPreference_kJ_mol: 31 },
  Ni: { dElectrons: 8, octahedralPreference_kJ_mol: 86 },
  Mn: { dElectrons: 5, octahedralPreference_kJ_mol: 0 },
  Cu: { dElectrons: 9, octahedralPreference_kJ_mol: 64 },
  Zn: { dElectrons: 10, octahedralPreference_kJ_mol: 0 },
  Fe3: { dElectrons: 5, octahedralPreference_kJ_mol: 0 },
  Fe2: { dElectrons: 6, octahedralPreference_kJ_mol: 17 },
  Cd: { dElectrons: 10, octahedralPreference_kJ_mol: 0 },
};
