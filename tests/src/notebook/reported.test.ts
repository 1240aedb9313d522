import { describe, expect, test } from 'vitest';
import type { KeptResult } from '../../../sim/report/kept.ts';
import { comparedWords, reportedOf, reportWords } from '../../../src/notebook/reported.ts';

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
