// The scenario of a hand-out. Apart from the hand-out itself, since the page reads scenarios elsewhere.
import { merged, readScenario, type ScenarioResult } from '../input/index.ts';
import type { Scenario } from '../terms/types.ts';
import { type HandOut, marked } from './hand-out.ts';

/** Tells one scenario from another, whatever its column: a 32-bit fingerprint of everything in it but id and seed. */
export function scenarioMark(scenario: Scenario): string {
  return marked(JSON.stringify({ ...scenario, id: '', seed: 0 }));
}

/** The scenario that is handed out; `shipped` is the JSON of its base. */
export function handedOutScenario({ base, differences }: Pick<HandOut, 'base' | 'differences'>, shipped: unknown): ScenarioResult {
  return readScenario(merged(shipped, differences), base);
}
