import { ln, power } from '../math/elementary.ts';
import type { FaultKind } from '../terms/fault-kinds.ts';
import type { Limit } from '../terms/limits.ts';
import { FAULTS } from './registry.ts';

// Severity in units of the bench: minutes dry, times as permeable, centimetres dug out.

/** A severity of 0 to 1 as an amount in the unit of the fault. */
export function amountOf(kind: FaultKind, severity: number): number {
  const { most, unit } = FAULTS[kind];
  if (kind === 'channel') return power(most, severity);
  return unit === 'times' ? 1 + (most - 1) * severity : most * severity;
}

/** The other way: of an amount in the unit of the fault, its severity. */
export function severityOf(kind: FaultKind, amount: number): number {
  const { most, unit } = FAULTS[kind];
  if (kind === 'channel') return ln(amount) / ln(most);
  return unit === 'times' ? (amount - 1) / (most - 1) : amount / most;
}

/** Amount that stands for no fault at all. */
function leastOf(kind: FaultKind): number {
  return FAULTS[kind].unit === 'times' ? 1 : 0;
}

/** Range of the amount; a step is about a twentieth of it, in one figure. Its label is what the amount means. */
export function amountRange(kind: FaultKind): Limit {
  const { severityMeaning, most, unit } = FAULTS[kind];
  const min = leastOf(kind);
  // What comes after the semicolon is about the share in a file.
  return { label: severityMeaning.replace(/;.*/, ''), unit, min, max: most, step: Number(((most - min) / 20).toPrecision(1)) };
}
