// Every mmol of every component is in exactly one place: poured = head + bed + tip + receivers + spilled.
import { AT, type Bed } from './bed.ts';
import type { Column } from './column.ts';
import { inReceivers } from './measure.ts';
import { amountOf } from './start.ts';

/** mmol: a nanomole. If less was poured, the gap is compared with this instead, since so little is lost in rounding. */
const LEAST = 1e-6;

/** Largest relative gap between what was poured and what is found, over all components. */
export function ledgerError(bed: Bed, column: Column): number {
  let worst = 0;
  for (let k = 0; k < bed.components; k++) {
    const poured = bed.pouredAmount[k];
    const found = amountOf(bed, column, k) + inReceivers(bed, k) + bed.spilledAmount[k];
    worst = Math.max(worst, Math.abs(found - poured) / Math.max(poured, LEAST));
  }
  return worst;
}

/** Relative gap of the liquid volume: start + poured = head + between beads + tip + receivers + spilled + dried off. */
export function liquidError(bed: Bed, started: number): number {
  const s = bed.scalar;
  let found = s[AT.headVolume] + s[AT.spilled] + s[AT.evaporated];
  for (let at = 0; at < bed.mobile.length; at++) found += bed.mobile[at] + bed.stillVolume[at];
  for (let r = 0; r < s[AT.receivers]; r++) found += bed.receivers[r * (bed.components + 1)];
  const poured = started + s[AT.poured];
  return Math.abs(found - poured) / poured;
}

/** mL above and between the beads of a fresh bed; the dead volume below is full at all times and left out. */
export function liquidOf(bed: Bed): number {
  let found = bed.scalar[AT.headVolume];
  for (let at = 0; at < bed.mobile.length; at++) found += bed.mobile[at] + bed.stillVolume[at];
  return found;
}
