import { FAULTS } from '../../sim/faults/index.ts';
import type { Limit } from '../../sim/terms/limits.ts';
import type { FaultKind } from '../../sim/terms/fault-kinds.ts';
import type { Fault } from '../../sim/terms/types.ts';
import { significant, withUnit } from '../ui/text/format.ts';

// Severity in units of the bench: minutes dry, times as permeable, centimetres dug out.

/** Named places round the bed, degrees from the front by the left. */
export const SIDES = [
  { label: 'front', deg: 0 },
  { label: 'left', deg: 90 },
  { label: 'back', deg: 180 },
  { label: 'right', deg: 270 },
] as const;

/** A severity of 0 to 1 as an amount in the unit of the fault. */
export function amountOf(kind: FaultKind, severity: number): number {
  const { most, unit } = FAULTS[kind];
  if (kind === 'channel') return most ** severity;
  return unit === 'times' ? 1 + (most - 1) * severity : most * severity;
}

export function severityOf(kind: FaultKind, amount: number): number {
  const { most, unit } = FAULTS[kind];
  if (kind === 'channel') return Math.log(amount) / Math.log(most);
  return unit === 'times' ? (amount - 1) / (most - 1) : amount / most;
}

/** Amount that stands for no fault at all. */
function leastOf(kind: FaultKind): number {
  return FAULTS[kind].unit === 'times' ? 1 : 0;
}

/** Range of the amount; a step is about a twentieth of it, in one figure. */
export function amountRange(kind: FaultKind): Limit {
  const { severityMeaning, most, unit } = FAULTS[kind];
  const min = leastOf(kind);
  return { label: severityMeaning, unit, min, max: most, step: Number(((most - min) / 20).toPrecision(1)) };
}

/** "dried bed, 22 min, at the left, to 3.5 cm" */
export function faultWords(fault: Fault, length_cm: number): string {
  const { label, unit, hasSide, hasDepth } = FAULTS[fault.kind];
  const side = hasSide
    ? [fault.side_deg === undefined ? (fault.kind === 'channel' ? 'in the core' : 'on any side') : `at the ${sideWords(fault.side_deg)}`]
    : [];
  const depth = hasDepth && (fault.depth_share ?? 1) < 1 ? [`down to ${withUnit(significant((fault.depth_share ?? 1) * length_cm, 2), 'cm')}`] : [];
  return [label, withUnit(significant(amountOf(fault.kind, fault.severity ?? 1), 2), unit), ...side, ...depth].join(', ');
}

export function sideWords(deg: number): string {
  return SIDES.find((side) => side.deg === deg % 360)?.label ?? `${significant(deg, 3)}°`;
}
