import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readScenario } from '../../../sim/input/scenario.ts';
import type { Scenario } from '../../../sim/terms/types.ts';

const SCENARIOS = join(import.meta.dirname, '..', '..', '..', 'scenarios');

export function shippedJson(id: string): unknown {
  return JSON.parse(readFileSync(join(SCENARIOS, `${id}.json`), 'utf8'));
}

/** The reader's scenario of a JSON that must be sound. */
export function sound(json: unknown): Scenario {
  const read = readScenario(json, 'lab');
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.scenario;
}
