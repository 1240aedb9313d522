import fc from 'fast-check';
import { expect, it } from 'vitest';
import { LAWS } from './laws.ts';

// A short part of the campaign with a fixed seed; `npm run campaign` tries more.
const SEED = 20_260_823;
const CASES: Readonly<Record<string, number>> = { actions: 40, refusals: 30 };

it.each(LAWS)('holds whatever comes in: $name', async ({ name, property }) => {
  const run = await fc.check(property(), { seed: SEED, numRuns: CASES[name] ?? 150, maxSkipsPerRun: 1000 });
  expect(run.counterexample, run.errorInstance instanceof Error ? run.errorInstance.message : '').toBeNull();
});
