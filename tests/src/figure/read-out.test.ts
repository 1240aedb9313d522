import { expect, test } from 'vitest';
import { small } from '../../../src/figure/cursor/read-out.ts';

test.each([
  [0, '0'],
  [1e-12, '0'],
  [1.42e-7, '< 0.0001'],
  [9.9e-5, '< 0.0001'],
  [1.42e-4, '0.000142'],
  [8.97, '8.97'],
])('the read-out writes %f as %s', (value, text) => {
  expect(small(value)).toBe(text);
});
