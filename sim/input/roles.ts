import { IONS } from '../terms/ions.ts';
import type { Action, IonId, Log, Scenario } from '../terms/types.ts';

// What the bottles and receivers of a scenario are for, read off the scenario itself.

type Pour = Extract<Action, { do: 'pour' }>;

/** Bottles with metals in them. */
export function sampleLiquids(scenario: Scenario): string[] {
  return Object.entries(scenario.liquids).flatMap(([id, { ions }]) => (Object.values(ions).some((c) => c > 0) ? [id] : []));
}

/** Pours of bottles with metals in them, in order. */
export function samplesOf(scenario: Scenario, log: Log = scenario.procedure): Pour[] {
  const samples = sampleLiquids(scenario);
  return log.filter((action): action is Pour => action.do === 'pour' && samples.includes(action.liquid));
}

/** The strongest acid without metals, and the weakest: what holds the target and what releases it. */
export function eluents(scenario: Scenario): { readonly acid: string | undefined; readonly water: string | undefined } {
  const samples = sampleLiquids(scenario);
  const clean = Object.entries(scenario.liquids)
    .filter(([id]) => !samples.includes(id))
    .sort(([, a], [, b]) => b.HCl_M - a.HCl_M);
  return { acid: clean[0]?.[0], water: clean.at(-1)?.[0] };
}

/** The ion to be collected: cobalt if the sample has any, else the one the sample has most of that makes an anion. */
export function targetOf(scenario: Scenario): IonId | undefined {
  const poured = new Map<IonId, number>();
  for (const id of sampleLiquids(scenario)) {
    for (const ion of scenario.ions) poured.set(ion, (poured.get(ion) ?? 0) + (scenario.liquids[id].ions[ion] ?? 0));
  }
  if ((poured.get('Co') ?? 0) > 0) return 'Co';
  return [...poured].filter(([ion, c]) => c > 0 && IONS[ion].anionCharge > 0).sort((a, b) => b[1] - a[1])[0]?.[0];
}
