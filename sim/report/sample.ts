import type { IonId, Log, Parameters, Scenario } from '../terms/types.ts';
import type { Receiver } from '../flask/flask.ts';

// The unknown of a run: which liquid it was, how much of it went on the column, and what it truly holds.

export interface Sample {
  /** Key of the liquid in the scenario. */
  readonly liquid: string;
  readonly label: string;
  /** What was poured; the scenario's usual sample if nothing was. */
  readonly volume_mL: number;
  /** True molarity of cobalt, mol/L. */
  readonly Co_M: number;
}

/** The first liquid with cobalt that a log pours, else the first in the scenario; undefined if none holds cobalt. */
export function sampleOf(scenario: Scenario, log: Log): Sample | undefined {
  const holds = (liquid: string, ion: IonId) => (scenario.liquids[liquid]?.ions[ion] ?? 0) > 0;
  const pours = log.flatMap((action) => (action.do === 'pour' && holds(action.liquid, 'Co') ? [action] : []));
  const liquid = pours[0]?.liquid ?? Object.keys(scenario.liquids).find((key) => holds(key, 'Co'));
  if (liquid === undefined) return undefined;
  const poured = pours.reduce((sum, pour) => (pour.liquid === liquid ? sum + pour.volume_mL : sum), 0);
  const { label, ions } = scenario.liquids[liquid];
  return { liquid, label, Co_M: ions.Co ?? 0, volume_mL: poured > 0 ? poured : scenario.values['workup.sample_mL'] };
}

/** Values of a work-up with the volume of unknown that truly went on the column. */
export function valuesWith(sample: Sample | undefined, values: Parameters): Parameters {
  return sample ? { ...values, 'workup.sample_mL': sample.volume_mL } : values;
}

/** The receiver that holds most cobalt; undefined while none holds any. */
export function richest<One extends Receiver>(receivers: readonly One[]): One | undefined {
  return receivers.reduce<One | undefined>((most, one) => ((one.Co_mmol ?? 0) > (most?.Co_mmol ?? 0) ? one : most), undefined);
}
