import { type HandedIn, handedInText, type Taken, takenIn } from '../../../sim/handed/index.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { runWhole } from '../../../sim/run/run.ts';
import type { Log, Scenario } from '../../../sim/terms/types.ts';

// Runs of the cathode leach as students hand them in, and as the page takes them in.

/** The file of a run; `differences` is what its scenario differs by from the shipped one. */
export function handedText(who: string, scenario: Scenario, differences: unknown, log: Log, under?: HandedIn['under']): string {
  const { time_min, delivered_mL, receivers } = resultsOf(runWhole(scenario, log));
  return handedInText({
    who,
    scenario: { base: 'cathode-leach', differences },
    seed: scenario.seed,
    log,
    predictions: [],
    claimed: { time_min, delivered_mL, receivers },
    ...(under && { under }),
  });
}

export async function taken(file: string, text: string): Promise<Taken> {
  return takenIn(file, text, async () => (await import('../../../scenarios/cathode-leach.json')).default);
}
