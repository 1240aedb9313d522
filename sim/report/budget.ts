import type { Parameters } from '../terms/fields.ts';
import { handOf, tolerance } from '../hands/index.ts';
import { power } from '../math/elementary.ts';
import { square } from '../math/square.ts';
import { FILM_ML } from '../workup/index.ts';

// Error budget of the cobalt molarity by propagation: relative contributions of a product add as squares.

/** How a tolerance a becomes a standard uncertainty: as it is, a/sqrt(3) (rectangular, GUM) or a/sqrt(6) (triangular, EURACHEM). Recalled. */
export type Spread = 'tolerance' | 'rectangular' | 'triangular';

const DIVISOR: Readonly<Record<Spread, number>> = { tolerance: 1, rectangular: Math.sqrt(3), triangular: Math.sqrt(6) };

/** One quantity of the product. */
export interface BudgetTerm {
  readonly quantity: string;
  readonly value: number;
  /** Half-width, in the unit of the value. */
  readonly tolerance: number;
  readonly unit: string;
  /** The same for all titrations of a bench, or new each time. */
  readonly lasts?: 'bench' | 'once';
  /** `tolerance` is a standard deviation already. */
  readonly normal?: boolean;
}

export interface BudgetLine extends BudgetTerm {
  readonly relative_percent: number;
  /** Share of the squared total, 0 to 1. */
  readonly share: number;
}

export interface Budget {
  readonly spread: Spread;
  readonly lines: readonly BudgetLine[];
  readonly relative_percent: number;
  /** The quantity that dominates. */
  readonly largest: string;
}

export function budgetOf(terms: readonly BudgetTerm[], spread: Spread = 'tolerance'): Budget {
  const relatives = terms.map(({ value, tolerance: half, normal }) => (100 * half) / Math.abs(value) / (normal ? 1 : DIVISOR[spread]));
  const total = rootSumSquares(relatives);
  const lines = terms.map((term, i) => ({ ...term, relative_percent: relatives[i], share: total > 0 ? square(relatives[i] / total) : 0 }));
  const largest = lines.reduce((a, b) => (b.share > a.share ? b : a)).quantity;
  return { spread, lines, relative_percent: total, largest };
}

/** One titration: what was read, from which glass. */
export interface Titrated {
  readonly titre_mL: number;
  /** Both the same if the whole eluate was titrated. */
  readonly flask_mL: number;
  readonly portion_mL: number;
  /** mL of eluate in its beaker, and the rinses it was poured over with; none if it was titrated in its beaker. */
  readonly eluate_mL: number;
  readonly rinsed: { readonly rinses: number; readonly rinse_mL: number } | undefined;
}

/** Quantities of one titration: the errors of the glass and of the hands on one bench, which a seed draws with the same widths. */
export function workUpTerms(titrated: Titrated, values: Parameters): BudgetTerm[] {
  const { titre_mL, flask_mL, portion_mL } = titrated;
  const sample = values['workup.sample_mL'];
  const reading = rootSumSquares([values['workup.reading_mL'], values['workup.reading_mL']]);
  const terms: BudgetTerm[] = [
    { quantity: 'titre', value: titre_mL, tolerance: tolerance('burette', values['workup.burette_mL']), unit: 'mL', lasts: 'bench' },
    { quantity: 'two burette readings', value: titre_mL, tolerance: reading, unit: 'mL', lasts: 'once' },
    { quantity: 'end point, to one drop', value: titre_mL, tolerance: values['workup.drop_mL'], unit: 'mL', lasts: 'once' },
    { quantity: 'EDTA', value: values['workup.EDTA_M'], tolerance: values['workup.EDTA_tolerance_M'], unit: 'mol/L', lasts: 'bench' },
    { quantity: 'sample pipette', value: sample, tolerance: tolerance('pipette', sample), unit: 'mL', lasts: 'bench' },
    ...handTerm('loading by hand', sample, values),
    ...filmTerm(titrated, values),
  ];
  if (portion_mL === flask_mL) return terms;
  return [
    ...terms,
    { quantity: 'volumetric flask', value: flask_mL, tolerance: tolerance('flask', flask_mL), unit: 'mL', lasts: 'bench' },
    { quantity: 'portion pipette', value: portion_mL, tolerance: tolerance('pipette', portion_mL), unit: 'mL', lasts: 'bench' },
    ...handTerm('pipetting by hand', portion_mL, values),
  ];
}

/** A standard deviation, however tolerances are converted. */
function handTerm(quantity: string, volume_mL: number, values: Parameters): BudgetTerm[] {
  const hand = values['bench.hand'] * handOf(volume_mL);
  return hand > 0 ? [{ quantity, value: volume_mL, tolerance: hand, unit: 'mL', lasts: 'once', normal: true }] : [];
}

/** What a film on the receiver may have kept back. */
function filmTerm({ eluate_mL, rinsed }: Titrated, values: Parameters): BudgetTerm[] {
  const film = values['bench.hand'] * FILM_ML;
  if (!rinsed || film === 0) return [];
  const kept = film * power(film / (film + rinsed.rinse_mL), rinsed.rinses);
  return [{ quantity: 'film on the receiver', value: eluate_mL, tolerance: kept, unit: 'mL', lasts: 'once' }];
}

/** Uncertainty of a sum or difference. */
export function rootSumSquares(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0));
}
