import { evenly, normal, triangular } from '../math/drawn.ts';
import type { Parameters } from '../terms/fields.ts';
import { tolerance } from './glass.ts';

// What a hand adds to the glass it uses, for pipettes, and for the drop at the tip of the column. `bench.hand` scales it:
// 0 is an exact bench, 1 a practised hand, 2 to 3 a first day.

/** Repeatability of a practised hand with a pipette as a share of the tolerance of the glass; common practice, no source. */
const HAND_SHARE = 0.5;

/** Standard deviation of one filling by a practised hand, mL. */
export function handOf(volume_mL: number): number {
  return HAND_SHARE * tolerance('pipette', volume_mL);
}

/** What truly goes on the column when an aliquot of that volume is pipetted; `nth` load from 0. One pipette serves all day. */
export function loaded(nominal_mL: number, values: Parameters, seed: number, nth: number): number {
  const hand = values['bench.hand'];
  if (hand === 0) return nominal_mL;
  const glass = tolerance('pipette', nominal_mL) * triangular(seed, `pipette ${nominal_mL} load`);
  const error = glass + hand * handOf(nominal_mL) * normal(seed, `load ${nth}`);
  return nominal_mL + Math.max(-nominal_mL / 2, Math.min(nominal_mL / 2, error));
}

/**
 * mL that hang at the tip when a receiver is changed and fall into the next one: any part of a drop. A practised hand (1)
 * touches half of that off at the wall of the vessel; common practice, no source.
 */
export function hanging(drop_mL: number, hand: number, seed: number, nth: number): number {
  return Math.min(1, hand / 2) * drop_mL * evenly(seed, `tip ${nth}`);
}
