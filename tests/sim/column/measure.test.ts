import { expect, test } from 'vitest';
import { ledgerError } from '../../../sim/column/ledger.ts';
import { bandIn, bandOf } from '../../../sim/column/measure.ts';
import { runOf, runWhole } from '../../../sim/run/run.ts';
import { caseOf, clamp, pour, until } from '../run/case.ts';

// What is read off a bed, against figures known beforehand.

test('the edges of a symmetric band lie as far from its middle, whatever it holds', () => {
  for (const height of [0.01, 1, 10]) {
    const triangle = Float64Array.from({ length: 40 }, (_, j) => height * Math.max(0, 10 - Math.abs(j - 19.5)));
    const band = bandIn(triangle, 0.2);
    if (!band) throw new Error('band: expected one');
    expect(band.centroid_cm).toBeCloseTo(4, 12);
    expect(band.leading_cm - 4).toBeCloseTo(4 - band.trailing_cm, 12);
    expect(band.trailing_cm).toBeGreaterThan(2);
  }
});

test('a gap in the books of any one component is found', () => {
  const { bed, column } = runOf(caseOf(), []);
  expect(ledgerError(bed, column)).toBeLessThan(1e-9);
  for (let k = 0; k < bed.components; k++) {
    const poured = bed.pouredAmount[k];
    bed.pouredAmount[k] = poured + 3;
    expect(ledgerError(bed, column)).toBeCloseTo(3 / (poured + 3), 9);
    bed.pouredAmount[k] = poured;
  }
});

test('a wait for the edge of a band ends when it is there', () => {
  const before = [clamp(100), pour('acid', 6), until({ liquid_mm: 1 }), pour('sample', 0.2), until({ liquid_mm: 1 }), pour('acid', 7)];
  const { bed, column } = runWhole(caseOf({ 'bench.start_HCl_M': 9 }), [...before, until({ ion: 'Ni', edge: 'leading', depth_cm: 5 }), clamp(0)]);
  const reached = bandOf(bed, column, 'Ni')?.leading_cm;
  expect(reached).toBeGreaterThanOrEqual(5);
  expect(reached).toBeLessThan(5.5);
});
