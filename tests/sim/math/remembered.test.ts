import { expect, it } from 'vitest';
import { remembered } from '../../../sim/math/remembered.ts';

it('works a result out once, and gives up the oldest when more are asked for than it keeps', () => {
  const asked: number[] = [];
  const doubled = remembered(2, String, (x: number) => {
    asked.push(x);
    return { value: 2 * x };
  });
  expect(doubled(1)).toBe(doubled(1));
  expect(doubled(2).value).toBe(4);
  doubled(3);
  expect(asked).toEqual([1, 2, 3]);
  expect(doubled(2).value).toBe(4);
  expect(asked).toEqual([1, 2, 3]);
  expect(doubled(1).value).toBe(2);
  expect(asked).toEqual([1, 2, 3, 1]);
});
