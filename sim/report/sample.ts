import type { IonId, Log, Parameters, Scenario } from '../terms/types.ts';
import type { Receiver } from '../flask/index.ts';

// The unknown of a run: which liquid it was, how much of it went on the column, and what it really holds.

export interface Sample {
  /** Key of the liquid in the scenario. */
  readonly liquid: string;
  readonly label: string;
  /** What was poured; the scenario's usual sample if nothing was. */
  readonly volume_mL: number;
  /** True molarity of cobalt, mol/L. */
  readonly Co_M: number;
  /** Which aliquot of the day, from 0: its readings are its own. */
  readonly nth: number;
}

/**
 * The first liquid with cobalt that a log pours, else the first in the scenario; undefined if none holds cobalt. With the label
 * of a receiver only the aliquots count that were loaded last before it was put under the tip.
 */
export function sampleOf(scenario: Scenario, log: Log, receiver?: string): Sample | undefined {
  const holds = (liquid: string, ion: IonId) => (scenario.liquids[liquid]?.ions[ion] ?? 0) > 0;
  const { loads, nth } = loadsFor(log, receiver, (liquid) => holds(liquid, 'Co'));
  const liquid = loads[0]?.liquid ?? Object.keys(scenario.liquids).find((key) => holds(key, 'Co'));
  if (liquid === undefined) return undefined;
  const poured = loads.reduce((sum, pour) => (pour.liquid === liquid ? sum + pour.volume_mL : sum), 0);
  const { label, ions } = scenario.liquids[liquid];
  return { liquid, label, Co_M: ions.Co ?? 0, volume_mL: poured > 0 ? poured : scenario.values['workup.sample_mL'], nth };
}

type Pour = Extract<Log[number], { do: 'pour' }>;

/** Loads between the last change of receiver before them and the change to `label`, and which they are; all of a log without a label. */
function loadsFor(log: Log, label: string | undefined, holds: (liquid: string) => boolean): { loads: Pour[]; nth: number } {
  let loads: Pour[] = [];
  let nth = 0;
  let changed = false;
  for (const action of log) {
    if (action.do === 'receiver') {
      if (action.label === label && loads.length > 0) return { loads, nth };
      changed = true;
    }
    if (action.do !== 'pour' || !holds(action.liquid)) continue;
    const next = label !== undefined && changed && loads.length > 0;
    if (next) nth += 1;
    loads = next ? [action] : [...loads, action];
    changed = false;
  }
  return { loads, nth };
}

/** Values of a work-up with the volume of unknown that really went on the column. */
export function valuesWith(sample: Sample | undefined, values: Parameters): Parameters {
  return sample ? { ...values, 'workup.sample_mL': sample.volume_mL } : values;
}

/** The receiver that holds most cobalt; undefined while none holds any. */
export function richest<One extends Receiver>(receivers: readonly One[]): One | undefined {
  return receivers.reduce<One | undefined>((most, one) => ((one.Co_mmol ?? 0) > (most?.Co_mmol ?? 0) ? one : most), undefined);
}
