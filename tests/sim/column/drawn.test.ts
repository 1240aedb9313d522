import { expect, test } from 'vitest';
import { drawn, intended } from '../../../sim/column/drawn.ts';
import { runOf } from '../../../sim/run/run.ts';
import { closeTo } from '../../exact/asserts.ts';
import { leach } from '../faults/bench.ts';

const SPREAD = { 'differ.bead': 0.07, 'differ.porosity': 0.01, 'differ.length_cm': 0.2, 'differ.spread': 0.5, 'differ.acid_M': 0.2 };

test('a seed is a column: the same again for itself, another for another, and drawn only once', () => {
  const [one, two] = [1, 2].map((seed) => drawn(leach(SPREAD, { seed })));
  expect(drawn(leach(SPREAD, { seed: 1 }))).toEqual(one);
  expect(one.values).not.toEqual(two.values);
  expect(drawn(one)).toEqual(one);
  expect(runOf(leach(SPREAD, { seed: 1 }), []).column.length).toBe(one.values['bed.length_cm']);
});

test('columns scatter as stated about what was meant, and bottles only lose acid', () => {
  const many = Array.from({ length: 400 }, (_, seed) => drawn(leach(SPREAD, { seed })));
  const lengths = many.map(({ values }) => values['bed.length_cm']);
  const mean = lengths.reduce((sum, length) => sum + length, 0) / lengths.length;
  const deviation = Math.sqrt(lengths.reduce((sum, length) => sum + (length - mean) ** 2, 0) / lengths.length);
  closeTo('mean', mean, 7, { absolute: 0.04 }, 'cm');
  closeTo('deviation', deviation, 0.2, { relative: 0.15 }, 'cm');
  expect(Math.max(...many.map(({ liquids }) => liquids.acid.HCl_M))).toBeLessThanOrEqual(9);
  expect(many.every(({ liquids }) => liquids.water.HCl_M === 0)).toBe(true);
});

test('columns do not differ where the scenario says so', () => expect(drawn(leach())).toEqual(leach()));

test('the column that is meant is the same for every seed, with the bed as written and the bottles as labelled', () => {
  const [one, two] = [1, 2].map((seed) => drawn(intended(leach(SPREAD, { seed }))));
  expect(one.values).toEqual(two.values);
  expect(one.values['bed.length_cm']).toBe(7);
  expect(one.liquids.acid.HCl_M).toBe(9);
});
