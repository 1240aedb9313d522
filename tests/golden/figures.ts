import { readdirSync, readFileSync } from 'node:fs';
import { resultsOf } from '../../sim/run/results.ts';
import { runWhole } from '../../sim/run/run.ts';
import { parseScenario } from '../../sim/input/scenario.ts';
import type { Scenario } from '../../sim/terms/types.ts';

// The figures of shipped scenarios that a teacher would quote, at the precision at which they would be quoted.

const SCENARIOS = new URL('../../scenarios/', import.meta.url);

/** Scenarios whose figures are kept: the lesson itself and the demonstrations. */
export const GOLDEN = readdirSync(SCENARIOS)
  .filter((file) => file === 'cathode-leach.json' || file.startsWith('demo-'))
  .map((file) => file.slice(0, -'.json'.length));

export interface Figures {
  readonly time_min: number;
  readonly delivered_mL: number;
  readonly receivers: readonly {
    readonly label: string;
    readonly volume_mL: number;
    readonly HCl_mmol: number;
    readonly Co_percent: number;
    readonly Ni_percent: number;
  }[];
  readonly onBedCo_percent: number;
}

export function scenarioOf(name: string): Scenario {
  const read = parseScenario(readFileSync(new URL(`${name}.json`, SCENARIOS), 'utf8'), name);
  if (!read.ok) throw new Error(`scenarios/${name}.json: expected a sound scenario, received ${JSON.stringify(read.issues)}`);
  return read.scenario;
}

/** Three figures, and nothing below a thousandth. */
export function figuresOf(scenario: Scenario): Figures {
  const results = resultsOf(runWhole(scenario));
  const share = (amount: unknown, ion: 'Co' | 'Ni'): number => rounded((100 * Number(amount)) / Number(results.loaded[`${ion}_mmol`]));
  return {
    time_min: rounded(results.time_min),
    delivered_mL: rounded(results.delivered_mL),
    receivers: results.receivers.map((receiver) => ({
      label: receiver.label,
      volume_mL: rounded(receiver.volume_mL),
      HCl_mmol: rounded(receiver.HCl_mmol),
      Co_percent: share(receiver.Co_mmol, 'Co'),
      Ni_percent: share(receiver.Ni_mmol, 'Ni'),
    })),
    onBedCo_percent: share(results.onBed.Co_mmol, 'Co'),
  };
}

function rounded(value: number): number {
  return Number(Number(value.toPrecision(4)).toFixed(3));
}
