import { bedVolumeOf } from '../terms/geometry.ts';
import type { IonId, Scenario } from '../terms/types.ts';
import { spansOf } from './fractions.ts';
import type { Plan } from './plan.ts';
import type { FractionTargets } from './windows.ts';

// What a good fraction is, where the reader has not said otherwise.

/** Least share of the target and largest share of any other ion. Choices; a titration repeats to about the same. */
const RECOVERED = 0.995;
const CARRIED = 0.005;
/** Acid allowed: this many bed volumes of the strongest liquid. Of the acid in the bed when water is started, that is about half. A choice. */
const ACID_BED_VOLUMES = 0.5;

/** What the scenario wants collected: cobalt where there is some, else the last ion it names. */
export function targetOf(scenario: Scenario): IonId {
  return scenario.ions.includes('Co') ? 'Co' : (scenario.ions.at(-1) ?? 'Co');
}

export function targetsOf(scenario: Scenario, target: IonId = targetOf(scenario)): FractionTargets {
  const { values, liquids, ions } = scenario;
  const strongest = Math.max(0, ...Object.values(liquids).map(({ HCl_M }) => HCl_M));
  return {
    target,
    unwanted: ions.filter((ion) => ion !== target),
    recovered: RECOVERED,
    carried: CARRIED,
    acid_mmol: Number((ACID_BED_VOLUMES * bedVolumeOf(values) * strongest).toPrecision(2)),
    NaOH_M: values['bench.NaOH_M'],
  };
}

/** The targets with the end of collecting of the run's own fraction, so that its window can be read off the run. */
export function withStop(plan: Plan, targets: FractionTargets): FractionTargets {
  const span = spansOf(plan, targets.target).kept;
  return span ? { ...targets, stop_mL: span.to_mL } : targets;
}
