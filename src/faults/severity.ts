import { amountOf, FAULTS } from '../../sim/faults/index.ts';
import type { Fault } from '../../sim/terms/types.ts';
import { significant, withUnit } from '../ui/text/format.ts';

// A fault in words, and the sides of the bed it can be at.

/** Named places round the bed, degrees from the front by the left. */
export const SIDES = [
  { label: 'front', deg: 0 },
  { label: 'left', deg: 90 },
  { label: 'back', deg: 180 },
  { label: 'right', deg: 270 },
] as const;

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
