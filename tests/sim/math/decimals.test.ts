import { expect, test } from 'vitest';
import { decimalsApart } from '../../../sim/math/decimals.ts';

test('decimalsApart() is as many as tell a value from its limit, and the usual ones where those do', () => {
  expect(decimalsApart(0.51, 0.5, 1)).toBe(2);
  expect(decimalsApart(99.496, 99.5, 1)).toBe(3);
  expect(decimalsApart(2, 0.5, 1)).toBe(1);
  expect(decimalsApart(20.04, 20, 0)).toBe(2);
});

test('decimalsApart() ends: equal numbers have the usual ones, and no limit asks for none', () => {
  expect(decimalsApart(0.5, 0.5, 1)).toBe(1);
  expect(decimalsApart(0.1 + 0.2, 0.3, 1)).toBe(4);
  expect(decimalsApart(5, Number.POSITIVE_INFINITY, 1)).toBe(1);
  expect(decimalsApart(5, Number.NaN, 1)).toBe(1);
});
