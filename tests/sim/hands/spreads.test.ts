import { standardDeviation } from 'simple-statistics';
import { expect, test } from 'vitest';
import { HAND_SPREADS, loaded } from '../../../sim/hands/index.ts';
import { FIELDS } from '../../../sim/terms/fields.ts';
import { parseScenario } from '../../../sim/input/scenario.ts';
import { readFileSync } from 'node:fs';

const read = parseScenario(readFileSync('scenarios/cathode-leach.json', 'utf8'), 'cathode-leach');
if (!read.ok) throw new Error('scenario: expected a sound one');
const { values } = read.scenario;

/** Standard deviation of the first load of 1 mL over many benches, as a share. */
function scatterOf(hand: number): number {
  return standardDeviation(Array.from({ length: 4000 }, (_, seed) => loaded(1, { ...values, 'bench.hand': hand }, seed, 0)));
}

test('the samples of a class scatter as those of hands on a first day, which is the one thing that both descriptions of a hand have', () => {
  expect(FIELDS['bench.hand'].meaning).toContain('2 to 3 a first day');
  const { size } = HAND_SPREADS.sample;
  expect(scatterOf(3)).toBeGreaterThan(0.9 * size);
  expect(scatterOf(3)).toBeLessThan(1.1 * size);
  expect(scatterOf(1)).toBeLessThan(0.5 * size);
  // Half of the tolerance of the glass a hand, in squares with the glass itself: triangular, sqrt(6) (closed form).
  expect(scatterOf(3)).toBeCloseTo(Math.hypot(3 * 0.003, 0.006 / Math.sqrt(6)), 3);
});
