import { describe, expect, test } from 'vitest';
import { parameterDefaults } from '../../../sim/terms/fields.ts';
import { workUp } from '../../../sim/report/workup.ts';
import type { KeptResult } from '../../../sim/report/kept.ts';
import { budgetPercent, comparedWords, reportedOf, reportWords, sourceOf, togetherWords } from '../../../src/notebook/reported.ts';

const kept = (seed: number, found_M: readonly number[], own_M: number | null = null): KeptResult => ({
  scenario: 'x',
  seed,
  receiver: 'cobalt',
  volume_mL: 18,
  acid_mmol: 10,
  recovered: 1,
  carried: 0,
  expected_mL: null,
  NaOH_mL: 0.4,
  titres_mL: [17.8],
  found_M,
  own_M,
  true_M: 12.4,
});

describe('a reported result', () => {
  // 12.40, 12.45, 12.43: mean 12.4267, s 0.02517, 95 % half-width 0.0625 with t = 4.303 (table of t, read). Worked by hand.
  const three = [kept(1, [12.4]), kept(2, [12.45]), kept(3, [12.43])];

  test('has the mean, spread and interval of the worked example', () => {
    const summary = reportedOf(three, 'page')?.replicates.summary;
    expect(summary?.mean).toBeCloseTo(12.4267, 4);
    expect(summary?.s).toBeCloseTo(0.02517, 5);
    expect(summary?.halfWidth).toBeCloseTo(0.0625, 4);
  });

  test('is written with as many decimals as two figures of its uncertainty', () => {
    const reported = reportedOf(three, 'page');
    expect(reported && reportWords(reported, undefined)).toMatch(/^12\.427 ± 0\.063 mol\/L .*n = 3, 95 % confidence$/);
  });

  test('of one aliquot rests on the error budget and says so', () => {
    const reported = reportedOf([kept(1, [0.1774])], 'page');
    expect(reported && reportWords(reported, 0.71)).toMatch(/^0\.1774 ± 0\.0013 mol\/L .*n = 1, 95 % from the error budget alone$/);
  });

  // Three times a number that has no end in binary: the mean is off by its last bit.
  test('of aliquots that agree to the last digit has no interval of nothing, and is not compared by one', () => {
    const reported = reportedOf([kept(1, [0.1]), kept(2, [0.1]), kept(3, [0.1])], 'page');
    expect(reported && reportWords(reported, 0.71)).toMatch(/^0\.10000? ± 0\.00071 mol\/L .*n = 3, 95 % from the error budget alone$/);
    expect(reported && comparedWords(reported.replicates, reported.true_M)).toMatch(/^The aliquots agree to the last digit read/);
    const apart = reportedOf(three, 'page');
    expect(apart && comparedWords(apart.replicates, apart.true_M)).toMatch(/^The true value lies inside the interval: 12\.40 mol\/L/);
  });

  test('takes what the reader calculated, where that was done', () => {
    const reported = reportedOf([kept(1, [12.4], 12.5), kept(2, [12.45])], 'own');
    expect(reported?.values).toEqual([12.5]);
    expect(reportedOf([kept(1, [12.4])], 'own')).toBeUndefined();
    expect(reportedOf([], 'page')).toBeUndefined();
  });

  test('sets titrations of one eluate beside aliquots over the column', () => {
    const contrast = reportedOf([kept(1, [12.4, 12.41, 12.39]), kept(2, [12.6])], 'page')?.contrast;
    expect(contrast?.titrations.values).toEqual([12.4, 12.41, 12.39]);
    expect(contrast?.columns.values).toEqual([12.4, 12.6]);
    expect(contrast?.columnSpread).toBeGreaterThan(0.1);
  });
});

describe('a result that rests on the error budget', () => {
  const receiver = { volume_mL: 28, HCl_mmol: 13, Co_mmol: 0.18, label: 'cobalt' };
  const figures = (titrations: number) => workUp(receiver, { ...parameterDefaults(), 'workup.titrations': titrations }, 1);
  const one = figures(1);
  const reported = reportedOf([kept(1, [0.1796])], 'page');

  // 1.96: two-sided 95 % of the normal distribution; a/√3 and a/√6: GUM and EURACHEM, as the budget names them.
  test.each(['tolerance', 'rectangular', 'triangular'] as const)('has 1.96 times what the budget adds up to, %s', (spread) => {
    const budget = one.budgets.find((each) => each.spread === spread);
    const half = budgetPercent(one, spread);
    if (!budget || half === undefined || !reported) throw new Error('expected a budget');
    expect(half / budget.relative_percent).toBeCloseTo(1.959964, 5);
    const shown = Number(/± (\S+) mol/.exec(reportWords(reported, half))?.[1]);
    expect(Math.abs(shown / 0.1796 - (1.96 * budget.relative_percent) / 100)).toBeLessThan(0.0006);
    expect(togetherWords(budget, half, 1, sourceOf(reported))).toBe(
      `Together ${budget.relative_percent.toFixed(2)}\u202f%, a standard uncertainty; the ${budget.largest} weighs most. 1.96 times that, ± ${half.toFixed(2)}\u202f%, holds 95 in 100: the ± of the result above.`,
    );
  });

  test('is wider the more a tolerance counts, and by default the interval of the runner', () => {
    const [as, flat, peaked] = (['tolerance', 'rectangular', 'triangular'] as const).map((spread) => budgetPercent(one, spread) ?? Number.NaN);
    expect(as).toBeGreaterThan(flat);
    expect(flat).toBeGreaterThan(peaked);
    expect(peaked).toBeCloseTo((100 * (one.interval?.halfWidth_M ?? 0)) / (one.interval?.found_M ?? 1), 9);
  });

  test('of several titrations of one eluate tells both the one and the mean, which is better known', () => {
    const several = figures(3);
    const [budget] = several.budgets;
    const half = budgetPercent(several, budget.spread) ?? Number.NaN;
    expect(half).toBeLessThan(1.96 * budget.relative_percent);
    expect(togetherWords(budget, half, 3, 'none')).toContain(`for one titration, and ${(half / 1.959964).toFixed(2)}\u202f% for the mean of 3`);
    expect(togetherWords(budget, half, 3, 'none')).toMatch(/holds 95 in 100\.$/);
  });

  test('is told apart from one that rests on the scatter of the aliquots', () => {
    const two = reportedOf([kept(1, [0.1796]), kept(2, [0.1812])], 'page');
    expect(sourceOf(two)).toBe('scatter');
    expect(togetherWords(one.budgets[0], 1, 1, sourceOf(two))).toMatch(/The ± of the result above comes from the scatter of the aliquots instead\.$/);
    expect(sourceOf(undefined)).toBe('none');
  });
});
