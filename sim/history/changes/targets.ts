import { targetOf } from '../../input/index.ts';
import { bedVolumeOf } from '../../terms/geometry.ts';
import type { IonId, Scenario } from '../../terms/types.ts';
import { receiversFor } from './meant.ts';

// What a good fraction is: the limits of the scenario's task, used unless the reader sets others.

/** What the collected fraction must hold. Shares are of what was poured. */
export interface FractionTargets {
  readonly target: IonId;
  readonly unwanted: readonly IonId[];
  /** Least share of the target, such as 0.995. */
  readonly recovered: number;
  /** Largest share of any unwanted ion, such as 0.005. */
  readonly carried: number;
  /** Largest amount of acid, mmol; no bound when left out. */
  readonly acid_mmol?: number;
  /** Alkali that neutralises the acid, mol/L. */
  readonly NaOH_M: number;
  /** Delivered volume at which collecting ends; the end of the run when left out. */
  readonly stop_mL?: number;
  /** Labels of the receivers that the scenario's procedure means for the target. */
  readonly receivers?: readonly string[];
}

/** Targets for what the scenario wants collected; where it names nothing that makes an anion, for the last ion of its list. */
export function targetsOf(scenario: Scenario, target: IonId = targetOf(scenario) ?? scenario.ions.at(-1) ?? 'Co'): FractionTargets {
  const { values, liquids, ions } = scenario;
  const strongest = Math.max(0, ...Object.values(liquids).map(({ HCl_M }) => HCl_M));
  return {
    target,
    unwanted: ions.filter((ion) => ion !== target),
    recovered: values['task.recovered_percent'] / 100,
    carried: values['task.carried_percent'] / 100,
    acid_mmol: Number((values['task.acid_bed_volumes'] * bedVolumeOf(values) * strongest).toPrecision(2)),
    NaOH_M: values['bench.NaOH_M'],
    receivers: receiversFor(scenario, target),
  };
}
