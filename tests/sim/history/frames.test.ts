import { expect, test } from 'vitest';
import { deliveredAtEnd, frameAt, frameAtTime, framesApart, idleBetween, instantAt, instantAtTime, timeAt } from '../../../sim/history/index.ts';
import { straight } from './straight.ts';

test('frameAt(...) is the last frame at or before a volume, frameAtTime(...) at or before a time', () => {
  const volumes = [-1, 0, 0.49, 0.5, 9.99, 10, 99];
  expect(volumes.map((v) => frameAt(straight, v))).toEqual([0, 0, 0, 1, 19, 20, 20]);
  expect(volumes.map((v) => frameAtTime(straight, 2 * v))).toEqual([0, 0, 0, 1, 19, 20, 20]);
});

test('instantAt(...) lies between the frames as the volume does, and within the run', () => {
  expect([-3, 0, 3.3, 10, 40].map((v) => instantAt(straight, v))).toEqual([0, 0, expect.closeTo(6.6, 12), 20, 20]);
  expect(instantAtTime(straight, 6.6)).toBeCloseTo(6.6, 12);
});

test('timeAt(...) holds the ends', () => {
  expect([-3, 3.3, 40].map((v) => timeAt(straight, v))).toEqual([0, expect.closeTo(6.6, 12), 20]);
  expect(deliveredAtEnd({ ...straight, count: 0 })).toBe(0);
});

test('framesApart(...) keeps a distance and the end of the run', () => {
  expect(framesApart(straight, 3)).toEqual([0, 6, 12, 18, 20]);
  expect(framesApart(straight, 0)).toHaveLength(straight.count);
});

test('while nothing is delivered the last frame counts, and the time is idle', () => {
  const rows = straight.rows.slice();
  // From frame 10 (5 mL, 10 min) to frame 14 (14 min) nothing drips.
  for (let frame = 11; frame <= 14; frame++) rows[frame * straight.stride + 1] = 5;
  const shut = { ...straight, rows };
  expect(framesApart(shut, 2.5)).toEqual([0, 5, 14, 15, 20]);
  expect([idleBetween(shut, 0, 20), idleBetween(shut, 11.5, 12.5), idleBetween(shut, 14, 20)]).toEqual([4, 1, 0]);
});
