import type { Scenario } from '../terms/types.ts';
import type { Receiver } from '../flask/index.ts';
import { sampleOf, valuesWith } from './sample.ts';
import { workUp, type WorkUp } from './workup.ts';
import { collected, type Plan, spansOf } from '../history/index.ts';

// What a receiver would hold if it had been changed at another volume, and the titration of that.

export interface Elsewhere {
  readonly receiver: Receiver;
  readonly figures: WorkUp;
}

/** Delivered volume at which a receiver was last put under the tip; undefined if the run has none of that name. */
export function changedAt(plan: Plan, label: string): number | undefined {
  return spansOf(plan).findLast((span) => span.label === label)?.from_mL;
}

/**
 * The receiver with its change taken `later_mL` later (negative: earlier), and with a share of the loaded nickel that was
 * still in the bed when it was put there, so that the eluent brought it along.
 */
export function receiverElsewhere(plan: Plan, receiver: Receiver, later_mL: number, nickelLeft: number): Receiver {
  const from_mL = changedAt(plan, receiver.label ?? '') ?? 0;
  const to_mL = Math.max(0, from_mL + later_mL);
  const low = Math.min(from_mL, to_mL);
  const high = Math.max(from_mL, to_mL);
  const sign = to_mL < from_mL ? 1 : -1;
  const moved = collected(plan, low, high);
  const amounts = Object.fromEntries(Object.entries(moved).map(([key, mmol]) => [key, Math.max(0, amountIn(receiver, key) + sign * mmol)]));
  const nickel = Number(amounts['Ni_mmol'] ?? 0) + nickelLeft * (plan.results.loaded.Ni_mmol ?? 0);
  return {
    ...receiver,
    ...amounts,
    HCl_mmol: Number(amounts['HCl_mmol'] ?? 0),
    Ni_mmol: nickel,
    volume_mL: Math.max(0, receiver.volume_mL + sign * (high - low)),
  };
}

/** One titration of a receiver by the usual steps. */
export function workedUp(scenario: Scenario, plan: Plan, receiver: Receiver): Elsewhere {
  const sample = sampleOf(scenario, plan.log, receiver.label);
  const values = { ...valuesWith(sample, scenario.values), 'workup.titrations': 1 };
  return { receiver, figures: workUp(receiver, values, scenario.seed, undefined, sample?.nth) };
}

function amountIn(receiver: Receiver, key: string): number {
  // Keys of `collected` are those of a receiver.
  const amount = (receiver as Readonly<Record<string, unknown>>)[key];
  return typeof amount === 'number' ? amount : 0;
}
