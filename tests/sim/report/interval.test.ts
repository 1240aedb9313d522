import { describe, expect, test } from 'vitest';
import type { Receiver } from '../../../sim/flask/flask.ts';
import { loaded } from '../../../sim/hands/hand.ts';
import { type Interval, intervalOfMean } from '../../../sim/report/interval.ts';
import { workUp } from '../../../sim/report/workup.ts';
import { meanOf } from '../../../sim/statistics/statistics.ts';
import { parameterDefaults } from '../../../sim/terms/fields.ts';

// What an interval promises, counted over many benches: 95 % means 95 in 100, whatever made the scatter.

const values = parameterDefaults();
const TRUE_M = 0.18;
const BENCHES = 300;
/** Benches on which three aliquots are titrated; fewer, for each takes its time. */
const DAYS = 80;

/** A column that gives back all that was loaded, with 40 mmol of the acid it held. */
function eluate(seed: number, nth: number): Receiver {
  return { volume_mL: 30, HCl_mmol: 40, Co_mmol: TRUE_M * loaded(1, values, seed, nth) };
}

function titrated(seed: number, nth: number): Interval {
  const { interval, refused } = workUp(eluate(seed, nth), values, seed, undefined, nth);
  expect(refused).toEqual([]);
  if (!interval) throw new Error(`seed ${seed}: expected a titration, received none`);
  return interval;
}

const covers = ({ low_M, high_M }: Interval): boolean => low_M <= TRUE_M && TRUE_M <= high_M;
const share = (intervals: readonly Interval[]): number => intervals.filter(covers).length / intervals.length;

describe('over 300 benches', () => {
  const first = Array.from({ length: BENCHES }, (_, seed) => titrated(seed + 1, 0));
  const days = first.slice(0, DAYS).map((one, seed) => [one, titrated(seed + 1, 1), titrated(seed + 1, 2)]);

  test('the interval of one titration covers the truth 90 to 98 times in 100', () => {
    expect(share(first)).toBeGreaterThanOrEqual(0.9);
    expect(share(first)).toBeLessThanOrEqual(0.98);
  });

  test('so does that of the mean of three aliquots, as far as 80 benches tell', () => {
    const means = days.flatMap((day) => intervalOfMean(day) ?? []);
    expect(means).toHaveLength(DAYS);
    expect(share(means)).toBeGreaterThanOrEqual(0.88);
    expect(share(means)).toBeLessThanOrEqual(1);
  });

  test('their mean agrees with the truth far within one interval', () => {
    const mean = meanOf(first.map(({ found_M }) => found_M));
    expect(Math.abs(mean - TRUE_M)).toBeLessThan(0.25 * meanOf(first.map(({ halfWidth_M }) => halfWidth_M)));
  });

  test('the scatter of three aliquots on one bench is what the budget says is new each time', () => {
    const within = days.map((day) => {
      const mean = meanOf(day.map(({ found_M }) => found_M));
      return day.reduce((sum, { found_M }) => sum + (found_M / mean - 1) ** 2, 0) / 2;
    });
    const seen_percent = 100 * Math.sqrt(meanOf(within));
    // A variance from 160 degrees of freedom is known to 11 %, its root to 6 %.
    expect(Math.abs(seen_percent / meanOf(first.map(({ once_percent }) => once_percent)) - 1)).toBeLessThan(0.15);
  });
});

test('a titre is 30 to 80 % of its burette, and 10 mL or more', () => {
  const { titrations } = workUp(eluate(1, 0), values, 1);
  const read_mL = titrations[0].titre.read_mL;
  expect(read_mL).toBeGreaterThan(10);
  expect(read_mL / values['workup.burette_mL']).toBeGreaterThan(0.3);
  expect(read_mL / values['workup.burette_mL']).toBeLessThan(0.8);
});
