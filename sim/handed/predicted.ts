// The outcome of what was predicted, read from the run.
import { BEGINS_SHARE, type FractionTargets, leavesAt, leavingAt, type Plan, pouredOf, progressOf, type Results } from '../history/index.ts';
import type { IonId, Scenario } from '../terms/types.ts';
import type { Prediction } from './predictions.ts';

/** A run as far as it is known. */
export interface Known {
  readonly scenario: Scenario;
  readonly plan: Plan;
  readonly targets: FractionTargets;
  /** The moment up to which it is known: volume, time, what has been done and the results. */
  readonly moment: { readonly delivered_mL: number; readonly time_min: number; readonly results: Results; readonly events: Plan['events'] };
}

/** Facts that the four questions ask for; `choice` is the answer that is right, `at_mL` where it happened. */
export interface Truth {
  readonly choice: string;
  readonly at_mL: number;
  readonly agrees: boolean;
}

/** A volume this near counts as agreeing, mL: about ten drops. A choice. */
export const NEAR_ML = 0.5;
/** Acid above which drops are called strong, mol/L; a choice. */
const STRONG_M = 2;
/** Share of the mean concentration, had the load spread over one bed volume, from which an ion counts as present. */
const PRESENT = 0.01;
/** Shares of the target in the best receiver that count as all and as most of it; choices. */
const ALL = 0.995;
const MOST = 0.95;

/** Undefined while the run has not yet shown it. */
export function truthOf(prediction: Prediction, known: Known): Truth | undefined {
  switch (prediction.occasion) {
    case 'load':
      return firstIon(prediction, known);
    case 'eluent':
      return firstVolume(prediction, known);
    case 'receiver':
      return atTip(prediction, known);
    case 'stop':
      return inFraction(prediction, known);
  }
}

/** Ions in the order in which they have left so far. */
export function leftFirst({ scenario, plan, moment }: Known): readonly { readonly ion: IonId; readonly at_mL: number }[] {
  const left = scenario.ions.flatMap((ion) => {
    const at_mL = leavesAt(plan, ion, BEGINS_SHARE);
    return at_mL !== undefined && at_mL <= moment.delivered_mL ? [{ ion, at_mL }] : [];
  });
  return left.sort((a, b) => a.at_mL - b.at_mL);
}

/** Share of the target in the receiver that holds most of it. */
export function bestShare({ moment, targets }: Known): number {
  const key = `${targets.target}_mmol` as const;
  const loaded = moment.results.loaded[key] ?? 0;
  return loaded > 0 ? Math.max(0, ...moment.results.receivers.map((receiver) => Number(receiver[key] ?? 0))) / loaded : 0;
}

function firstIon(prediction: Prediction, known: Known): Truth | undefined {
  const [first, second] = leftFirst(known);
  if (!first) return undefined;
  const choice = second !== undefined && second.at_mL - first.at_mL < NEAR_ML ? 'together' : first.ion;
  return { choice, at_mL: first.at_mL, agrees: prediction.choice === choice };
}

function firstVolume(prediction: Prediction, { scenario, plan, moment, targets }: Known): Truth | undefined {
  const at_mL = leavesAt(plan, targets.target, BEGINS_SHARE);
  const { eluent_mL } = progressOf(scenario, moment.events);
  if (at_mL === undefined || at_mL > moment.delivered_mL || eluent_mL === undefined) return undefined;
  return { choice: '', at_mL, agrees: Math.abs((prediction.volume_mL ?? at_mL) - at_mL) <= NEAR_ML };
}

function atTip(prediction: Prediction, { plan, moment, targets }: Known): Truth | undefined {
  const change = plan.events.find(({ entry }) => entry === prediction.entry);
  if (!change || change.delivered_mL > moment.delivered_mL + 1e-9) return undefined;
  const at_mL = change.delivered_mL;
  const strong = leavingAt(plan, 'HCl', at_mL) >= STRONG_M;
  const present = leavingAt(plan, targets.target, at_mL) > (PRESENT * pouredOf(plan, targets.target)) / plan.results.bed.volume_mL;
  const choice = strong ? (present ? 'both' : 'acid') : present ? 'target' : 'water';
  return { choice, at_mL, agrees: prediction.choice === choice };
}

function inFraction(prediction: Prediction, known: Known): Truth | undefined {
  const { plan, moment } = known;
  const stop = plan.events.find(({ entry }) => entry === prediction.entry);
  if (!stop || stop.time_min > moment.time_min + 1e-9) return undefined;
  const share = bestShare(known);
  const choice = share >= ALL ? 'all' : share >= MOST ? 'most' : 'less';
  return { choice, at_mL: stop.delivered_mL, agrees: prediction.choice === choice };
}
