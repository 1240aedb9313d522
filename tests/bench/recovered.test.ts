import { describe, expect, test } from 'vitest';
import { readScenario } from '../../sim/input/scenario.ts';
import { boundsOf, FITTED_PATHS, priorWidth } from '../../src/lab/fit/parameters.ts';
import json from '../../scenarios/cathode-leach.json';
import { drawnColumn, rateTable, recovered } from './recovered.ts';
import { wilson } from './wilson.ts';

/** The shipped lesson on a bed of few cells, which is quick and coarse. */
const read = readScenario({ ...json, bed: { lanes: 1, plates: 15 } }, 'lab');
if (!read.ok) throw new Error(JSON.stringify(read.issues));
const { scenario } = read;

describe('calibration of all numbers', () => {
  // Of 32 intervals of 95 % at least 26 hold the truth with probability 0.998 (binomial, were they independent). Seed 1 is a column at
  // whose start a first step of usual length leads uphill: a search that gives up there holds 5 of 8.
  test('finds columns drawn from the prior again within its intervals', () => {
    const held = [1, 2, 3, 4].map((seed) => recovered(scenario, seed).held.filter((one) => one).length);
    expect(held[0]).toBeGreaterThanOrEqual(7);
    expect(held.reduce((sum, one) => sum + one, 0)).toBeGreaterThanOrEqual(26);
  }, 120_000);

  test('draws columns within their bounds, the same for the same seed', () => {
    const drawn = drawnColumn(scenario, 7, FITTED_PATHS);
    expect(drawn).toEqual(drawnColumn(scenario, 7, FITTED_PATHS));
    expect(drawn.values['bed.bead_um']).not.toBe(drawnColumn(scenario, 8, FITTED_PATHS).values['bed.bead_um']);
    for (const path of FITTED_PATHS) {
      const u = Math.log(drawn.values[path] / scenario.values[path]) / priorWidth(path);
      const [least, most] = boundsOf(scenario.values, path);
      expect(u).toBeGreaterThanOrEqual(least);
      expect(u).toBeLessThanOrEqual(most);
    }
  });
});

test('the table counts what is held by parameter and in all', () => {
  const rows = rateTable(
    [
      { seed: 1, held: [true, true], open: [false, true] },
      { seed: 2, held: [false, true], open: [false, false] },
    ],
    ['bed.bead_um', 'column.tip_mL'],
  ).split('\n');
  expect(rows[2]).toMatch(/^\| `bed.bead_um` +\| 2 +\| 1 \(50.0 %\) +\| .* \| 0 +\|$/);
  expect(rows[3]).toMatch(/^\| `column.tip_mL` +\| 2 +\| 2 \(100.0 %\) +\| .* \| 1 +\|$/);
  expect(rows[4]).toMatch(/^\| all +\| 4 +\| 3 \(75.0 %\)/);
});

// Newcombe, Stat. Med. 17 (1998) 857, table I, score method without continuity correction: 81 of 263 gives 0.2553 to 0.3662, 15 of 148 gives 0.0624 to 0.1605 (from memory).
test('the interval of a share is that of Wilson', () => {
  expect(wilson(81, 263).map((value) => value.toFixed(4))).toEqual(['0.2553', '0.3662']);
  expect(wilson(15, 148).map((value) => value.toFixed(4))).toEqual(['0.0624', '0.1605']);
});
