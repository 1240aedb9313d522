import { expect, test } from 'vitest';
import { SEED_MAX } from '../../../sim/math/random.ts';
import { columnName } from '../../../src/ui/text/column-name.ts';

test('a seed of up to four digits is its own name', () => {
  expect([0, 1, 4821, 9999].map(columnName)).toEqual(['column\u00a00', 'column\u00a01', 'column\u00a04821', 'column\u00a09999']);
});

test('a longer seed has a name of four digits, always the same', () => {
  for (const seed of [10_000, 3_048_571_234, SEED_MAX]) {
    expect(columnName(seed)).toMatch(/^column\u00a0[1-9]\d{3}$/);
    expect(columnName(seed)).toBe(columnName(seed));
  }
});

test('neighbouring seeds hardly ever share a name', () => {
  // 30 names out of 9000 chosen evenly: 0.05 pairs alike on average (30 · 29 / 2 / 9000, closed form of the birthday problem).
  const names = Array.from({ length: 30 }, (_, i) => columnName(2_000_000_000 + i));
  expect(new Set(names).size).toBeGreaterThanOrEqual(29);
});
