import { AT } from '../column/index.ts';
import { flowInto } from '../flow/index.ts';
import type { Scenario } from '../terms/types.ts';
import { ln } from '../math/elementary.ts';
import { runOf } from './run.ts';

/** A flow test before anything is poured, with the clamp open. */
export interface FlowTest {
  readonly volume_mL: number;
  /** Liquid above the bed at the beginning and at the end, mm. */
  readonly from_mm: number;
  readonly to_mm: number;
}

/** Lowest level that counts as liquid above the bed, cm: with none, air holds the liquid back. */
const LEVEL_LEAST = 1e-4;

/**
 * Minutes that a bed as it is stored takes to pass a volume while the level goes evenly from one height to the other. Flow rises
 * linearly with the level (Darcy), so the time is the volume over the logarithmic mean of both flows, as for a falling-head test.
 */
export function flowTestMinutes(scenario: Scenario, { volume_mL, from_mm, to_mm }: FlowTest): number {
  const { bed, column } = runOf(scenario, []);
  const s = bed.scalar;
  s[AT.clampOpen] = 1;
  const flowAt = (mm: number): number => {
    const level = Math.max(LEVEL_LEAST, mm / 10);
    s[AT.headVolume] = level * column.section;
    bed.head[0] = s[AT.headVolume] * scenario.values['bench.start_HCl_M'];
    return flowInto(bed, column, level);
  };
  const [first, last] = [flowAt(from_mm), flowAt(to_mm)];
  return volume_mL / logMean(first, last);
}

function logMean(a: number, b: number): number {
  // Nearly equal: the quotient would lose its figures.
  return Math.abs(a - b) < 1e-6 * a ? (a + b) / 2 : (a - b) / ln(a / b);
}
