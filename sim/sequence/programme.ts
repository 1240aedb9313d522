import { bedVolumeOf } from '../terms/geometry.ts';
import type { IonId } from '../terms/ions.ts';
import type { Action, Liquid, Scenario } from '../terms/types.ts';

// A stepwise programme of acids as the bench does it: what is loaded, the bottles, and the log of each step.

/** The liquid that holds the metals, and how much of it is loaded. */
export interface Sample {
  readonly name: string;
  readonly volume_mL: number;
  readonly ions: readonly IonId[];
}

/** One acid that brings out one group of metals. */
export interface ProgrammeStep {
  readonly HCl_M: number;
  readonly volume_mL: number;
  readonly group: readonly IonId[];
}

/** Bottles that are tried, mol/L. */
export const BOTTLES_M = [12, 11, 10, 9, 8, 7, 6, 5, 4, 3.5, 3, 2.5, 2, 1.5, 1, 0.75, 0.5, 0.3, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005] as const;
/** Bed volumes of acid before the sample, of sample where the scenario names none, and to rinse the wall. Common practice, no source. */
const CONDITIONING_BV = 2.4;
const SAMPLE_BV = 0.08;
const RINSE_BV = 0.04;
const DRAINED: Action = { do: 'wait', until: { liquid_mm: 1 } };

/** The liquid with metals that the procedure pours first, or the first there is. */
export function sampleOf(scenario: Scenario): Sample | undefined {
  const holds = (name: string): IonId[] => scenario.ions.filter((ion) => (scenario.liquids[name]?.ions[ion] ?? 0) > 0);
  const pour = scenario.procedure.find((action) => action.do === 'pour' && holds(action.liquid).length > 0);
  const name = pour?.do === 'pour' ? pour.liquid : Object.keys(scenario.liquids).find((id) => holds(id).length > 0);
  if (name === undefined) return undefined;
  return { name, volume_mL: pour?.do === 'pour' ? pour.volume_mL : SAMPLE_BV * bedVolumeOf(scenario.values), ions: holds(name) };
}

/** The scenario on one even lane without faults, with every bottle beside the sample. */
export function oneLane(scenario: Scenario, sample: Sample): Scenario {
  const bottles = BOTTLES_M.map((HCl_M): [string, Liquid] => [bottleName(HCl_M), { label: `${HCl_M} M HCl`, HCl_M, ions: {} }]);
  const values = { ...scenario.values, 'bed.lanes': 1, 'bed.spread': 0, 'bench.hand': 0 };
  return { ...scenario, values, faults: [], liquids: { ...Object.fromEntries(bottles), [sample.name]: scenario.liquids[sample.name] } };
}

/** Conditioning, sample, and a rinse of the wall, all with the first acid. */
export function loadingLog(scenario: Scenario, sample: Sample, { HCl_M, group }: Pick<ProgrammeStep, 'HCl_M' | 'group'>): Action[] {
  const liquid = bottleName(HCl_M);
  const bed_mL = bedVolumeOf(scenario.values);
  return [
    { do: 'receiver', label: 'conditioning' },
    { do: 'clamp', open_percent: 100 },
    DRAINED,
    { do: 'pour', liquid, volume_mL: rounded(CONDITIONING_BV * bed_mL), hold_level: true },
    DRAINED,
    { do: 'pour', liquid: sample.name, volume_mL: sample.volume_mL },
    { do: 'receiver', label: receiverOf(group) },
    DRAINED,
    { do: 'pour', liquid, volume_mL: Math.max(0.1, rounded(RINSE_BV * bed_mL)) },
    DRAINED,
  ];
}

/** The new acid is felt at the outlet after a hold-up volume: only then the receiver is changed, if it is not the first. */
export function stepLog(scenario: Scenario, { HCl_M, volume_mL, group }: ProgrammeStep, first: boolean): Action[] {
  const holdup_mL = bedVolumeOf(scenario.values) * scenario.values['bed.porosity'];
  const change: Action[] = [
    { do: 'wait', until: { more_mL: rounded(Math.min(holdup_mL, volume_mL)) } },
    { do: 'receiver', label: receiverOf(group) },
  ];
  return [{ do: 'pour', liquid: bottleName(HCl_M), volume_mL, hold_level: true }, ...(first ? [] : change), DRAINED];
}

/** Bottles by strength: acid12, acid0_5. */
export function bottleName(HCl_M: number): string {
  return `acid${String(HCl_M).replace('.', '_')}`;
}

export function receiverOf(group: readonly IonId[]): string {
  return group.join(' + ');
}

function rounded(volume_mL: number): number {
  return Math.round(volume_mL * 10) / 10;
}
