import type { IonId, Liquid, Parameters, Scenario } from '../terms/types.ts';
import type { FaultKind } from '../terms/fault-kinds.ts';
import { sampleLiquids } from '../input/index.ts';
import { exp } from '../math/elementary.ts';
import { square } from '../math/square.ts';

// Faults of the bottles and of the packing as changes of the scenario.

type ScenarioFault = (scenario: Scenario, severity: number) => Scenario;

/** What severity 1 stands for. All chosen. */
export const OVERLOAD_MAX = 10;
export const INTERFERING_MAX_M = 0.3;
export const WEAKER_MAX = 0.5;
export const FUMING_MAX_PER_H = 0.6;
export const SHORTER_MAX = 0.5;
export const COARSER_MAX = 2;
/** Standard deviation of ln(diameter). */
export const RANGE_MAX = 0.4;
export const DROP_MAX_CM = 40;
/** mol/L of one metal that a chloride solution can hold, roughly (common practice, no source). */
const SOLUBLE_M = 3;
/** Ions that take sites or come off with the cobalt. */
const INTERFERING: readonly IonId[] = ['Fe3', 'Zn', 'Cu'];
/** Weaker than this is water, mol/L. */
const WATER_M = 1;

export const SCENARIO_FAULTS: Readonly<Partial<Record<FaultKind, ScenarioFault>>> = {
  overload: (scenario, severity) =>
    withSample(scenario, (liquid) => ({ ...liquid, ions: mapped(liquid.ions, (c) => Math.min(SOLUBLE_M, c * (1 + (OVERLOAD_MAX - 1) * severity))) })),
  'interfering-ions': interfering,
  'weak-acid': (scenario, severity) =>
    withLiquids(scenario, (liquid) => (liquid.HCl_M < WATER_M ? liquid : { ...liquid, HCl_M: liquid.HCl_M * (1 - WEAKER_MAX * severity) })),
  'fumed-acid': (scenario, severity) =>
    withValues(scenario, { 'bench.fuming_per_h': Math.max(scenario.values['bench.fuming_per_h'], FUMING_MAX_PER_H * severity) }),
  'short-bed': shortBed,
  'coarse-beads': (scenario, severity) => withValues(scenario, { 'bed.bead_um': scenario.values['bed.bead_um'] * (1 + (COARSER_MAX - 1) * severity) }),
  'wide-bead-range': wideRange,
  'fast-flow': (scenario, severity) => withValues(scenario, { 'column.outlet_cm': scenario.values['column.outlet_cm'] + DROP_MAX_CM * severity }),
};

function withValues(scenario: Scenario, values: Partial<Parameters>): Scenario {
  return { ...scenario, values: { ...scenario.values, ...values } };
}

function withLiquids(scenario: Scenario, change: (liquid: Liquid, id: string) => Liquid): Scenario {
  return { ...scenario, liquids: Object.fromEntries(Object.entries(scenario.liquids).map(([id, liquid]) => [id, change(liquid, id)])) };
}

function withSample(scenario: Scenario, change: (liquid: Liquid) => Liquid): Scenario {
  const samples = sampleLiquids(scenario);
  return withLiquids(scenario, (liquid, id) => (samples.includes(id) ? change(liquid) : liquid));
}

function mapped(ions: Liquid['ions'], change: (c: number) => number): Liquid['ions'] {
  return Object.fromEntries(Object.entries(ions).map(([ion, c]) => [ion, change(c)]));
}

/** The beads settle lower than was marked: part of what was taken for resin was water. Cells keep their length. */
function shortBed(scenario: Scenario, severity: number): Scenario {
  const share = 1 - SHORTER_MAX * severity;
  return withValues(scenario, {
    'bed.length_cm': scenario.values['bed.length_cm'] * share,
    'bed.plates': Math.max(4, Math.round(scenario.values['bed.plates'] * share)),
  });
}

function interfering(scenario: Scenario, severity: number): Scenario {
  if (severity <= 0) return scenario;
  const added = INTERFERING.filter((ion) => !scenario.ions.includes(ion));
  const grown = { ...scenario, ions: [...scenario.ions, ...added] };
  return withSample(grown, (liquid) => ({
    ...liquid,
    ions: {
      ...Object.fromEntries(INTERFERING.map((ion) => [ion, Math.min(SOLUBLE_M, (liquid.ions[ion] ?? 0) + INTERFERING_MAX_M * severity)])),
      ...without(liquid.ions),
    },
  }));
}

function without(ions: Liquid['ions']): Liquid['ions'] {
  return Object.fromEntries(Object.entries(ions).filter(([ion]) => !INTERFERING.some((other) => other === ion)));
}

/**
 * Beads of a wide range with the same surface-mean diameter: by volume they are larger, so diffusion takes exp(3 s²) as
 * long (log-normal sizes, derived), and they pack less regularly (assumed).
 */
function wideRange(scenario: Scenario, severity: number): Scenario {
  const slower = exp(3 * square(RANGE_MAX * severity));
  const { values } = scenario;
  return withValues(scenario, {
    'resin.Ds_exchange_cm2_s': values['resin.Ds_exchange_cm2_s'] / slower,
    'resin.Ds_coion_cm2_s': values['resin.Ds_coion_cm2_s'] / slower,
    'resin.Ds_HCl_cm2_s': values['resin.Ds_HCl_cm2_s'] / slower,
    'bed.packing': values['bed.packing'] * (1 + severity),
  });
}
