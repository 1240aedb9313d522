import { expect, test } from 'vitest';
import { targetsOf } from '../../../sim/history/index.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { endedWords } from '../../../src/bench/debrief/ended.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { small } from '../store/rig.ts';

const SCENARIO = small();
const TARGETS = targetsOf(SCENARIO);
const ended = (log: Log) => endedWords(new Planner(SCENARIO).plan(log), TARGETS);

test('a run that did what was asked is said to be good, with what its receiver holds', () => {
  const { good, text } = ended(SCENARIO.procedure);
  expect(good).toBe(true);
  expect(text).toMatch(/^“cobalt” holds (99\.\d|100\.0)\s% of the Co²⁺ and 0\.\d\s% of the Ni²⁺\.$/);
});

test('a run whose receiver was never changed is not: what the task asks for stands beside it', () => {
  const { good, text } = ended(SCENARIO.procedure.filter((action) => action.do !== 'receiver' || action.label !== 'cobalt'));
  expect(good).toBe(false);
  expect(text).toMatch(/100\.0\s% of the Ni²⁺/);
  expect(text).toMatch(/it allows 0\.5\s%/);
});
