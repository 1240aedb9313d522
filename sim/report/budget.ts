import type { Parameters } from '../terms/fields.ts';
import { tolerance } from '../workup/apparatus.ts';
import { square } from '../math/elementary.ts';

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
  const relatives = terms.map(({ value, tolerance: half }) => (100 * half) / Math.abs(value) / DIVISOR[spread]);
  const total = rootSumSquares(relatives);
  const lines = terms.map((term, i) => ({ ...term, relative_percent: relatives[i], share: total > 0 ? square(relatives[i] / total) : 0 }));
  const largest = lines.reduce((a, b) => (b.share > a.share ? b : a)).quantity;
  return { spread, lines, relative_percent: total, largest };
}

/** Quantities of one titration on the glass of a bench. */
export function workUpTerms(titre_mL: number, values: Parameters, flask_mL: number, aliquot_mL: number): BudgetTerm[] {
  const sample = values['workup.sample_mL'];
  const terms: BudgetTerm[] = [
    { quantity: 'titre', value: titre_mL, tolerance: tolerance('burette', values['workup.burette_mL']), unit: 'mL' },
    { quantity: 'two burette readings', value: titre_mL, tolerance: rootSumSquares([values['workup.reading_mL'], values['workup.reading_mL']]), unit: 'mL' },
    { quantity: 'EDTA', value: values['workup.EDTA_M'], tolerance: values['workup.EDTA_tolerance_M'], unit: 'mol/L' },
    { quantity: 'sample pipette', value: sample, tolerance: tolerance('pipette', sample), unit: 'mL' },
  ];
  if (aliquot_mL === flask_mL) return terms;
  return [
    ...terms,
    { quantity: 'volumetric flask', value: flask_mL, tolerance: tolerance('flask', flask_mL), unit: 'mL' },
    { quantity: 'aliquot pipette', value: aliquot_mL, tolerance: tolerance('pipette', aliquot_mL), unit: 'mL' },
  ];
}

/** Uncertainty of a sum or difference. */
export function rootSumSquares(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0));
}
