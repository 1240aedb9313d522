import { meanActivity } from './acid.ts';
import { EXCHANGE_CONSTANTS, ION_IDS, type IonId, IONS, MEASURED } from '../terms/ions.ts';
import type { ExchangeConstants } from '../terms/ions/ion.ts';
import { pow10, power } from '../math/elementary.ts';

// Chloro-complexes of the metals in hydrochloric acid: constants that make the exchange curves, and shares of the species to show.
// Ligand activity is the mean HCl activity in mol/kg, after Marcus, J. Phys. Chem. 63 (1959) 1000.

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
  // Object.fromEntries forgets the keys, which are those of ION_IDS.
  return Object.fromEntries(ION_IDS.map((ion) => [ion, f(EXCHANGE_CONSTANTS[ion])])) as Record<IonId, T>;
}

function shares(terms: readonly number[]): number[] {
  const sum = terms.reduce((total, term) => total + term, 0);
  return terms.map((term) => term / sum);
}
