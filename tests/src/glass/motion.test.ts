import { describe, expect, test } from 'vitest';
import { approach, dropRate, dropsPerSecond, fallen, FALL_S, hangingShare } from '../../../src/glass/scene/motion.ts';
import { Resolution } from '../../../src/glass/scene/resolution.ts';
import { nearestTurn, sideName, turned, wallLanes } from '../../../src/glass/sides.ts';

describe('a turn', () => {
  test('is the same in one big step as in a thousand small ones', () => {
    const big = approach({ at: 0, speed: 0 }, 90, 0.2);
    let small = { at: 0, speed: 0 };
    for (let i = 0; i < 1000; i++) small = approach(small, 90, 0.0002);
    expect(small.at).toBeCloseTo(big.at, 6);
    expect(small.speed).toBeCloseTo(big.speed, 5);
  });

  test('never passes its target and ends on it', () => {
    let turning = { at: 0, speed: 0 };
    for (let i = 0; i < 120; i++) {
      turning = approach(turning, 90, 1 / 60);
      expect(turning.at).toBeLessThanOrEqual(90);
    }
    expect(turning).toEqual({ at: 90, speed: 0 });
  });

  test('goes the short way round', () => {
    expect(nearestTurn(350, 0)).toBe(360);
    expect(nearestTurn(0, 270)).toBe(-90);
    expect(turned(-90)).toBe(270);
  });
});

describe('drops', () => {
  test('leave twenty for every millilitre of 0.05 mL each', () => {
    expect(dropRate(1, 0.05)).toBe(20);
    expect(dropsPerSecond(3, 0.05, 1)).toBe(1);
    expect(dropsPerSecond(3, 0.05, 5)).toBe(5);
  });

  test('grow with what has left the tip and start again', () => {
    expect(hangingShare(0.12, 0.05)).toBeCloseTo(0.4, 12);
    expect(hangingShare(0.1499, 0.05)).toBeGreaterThan(0.99);
    expect(hangingShare(0.1501, 0.05)).toBeLessThan(0.01);
  });

  test('fall a quarter of the way in half of the time', () => {
    expect(fallen(FALL_S / 2)).toBeCloseTo(0.25, 12);
    expect(fallen(2 * FALL_S)).toBe(1);
  });
});

describe('sideName', () => {
  test.each([
    [0, 'front'],
    [44, 'front left'],
    [90, 'left'],
    [180, 'back'],
    [-90, 'right'],
    [359, 'front'],
  ])('calls %d degrees the %s', (deg, name) => {
    expect(sideName(deg)).toBe(name);
  });
});

test('the wall of one lane is that lane', () => {
  expect([wallLanes(1), wallLanes(4)]).toEqual([[0], [1, 2, 3]]);
});

describe('Resolution', () => {
  test('goes down step by step on slow frames, back up on quick ones, and stays on good ones', () => {
    const resolution = new Resolution();
    const run = (ms: number, frames: number): number => {
      for (let i = 0; i < frames; i++) resolution.note(ms);
      return resolution.share;
    };
    expect(run(16, 200)).toBe(1);
    expect(run(60, 13)).toBe(0.75);
    expect(run(60, 200)).toBe(0.5);
    expect(run(16, 200)).toBe(0.5);
    expect(run(7, 200)).toBe(1);
  });

  test('takes a pause for a pause', () => {
    const resolution = new Resolution();
    for (let i = 0; i < 50; i++) resolution.note(1000);
    expect(resolution.share).toBe(1);
  });
});
