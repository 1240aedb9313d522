import * as d3 from 'd3-scale';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Scale, scaleLinear, scaleLog, scaleSqrt } from '../../../src/plot/scale.ts';

// Judge: d3-scale, a general-purpose library. Both get the same calls.

const thousandths = fc.integer({ min: -1e6, max: 1e6 }).map((n) => n / 1000);
const positive = fc.tuple(fc.integer({ min: 1, max: 9999 }), fc.integer({ min: -9, max: 5 })).map(([figures, power]) => figures * 10 ** power);

/** The calls that both understand. */
type Judge = () => Pick<Scale, 'domain' | 'range' | 'clamp' | 'nice' | 'ticks' | 'invert'> & ((value: number) => number);

const KINDS: readonly [string, () => Scale, Judge, fc.Arbitrary<number>][] = [
  ['scaleLinear', scaleLinear, d3.scaleLinear as unknown as Judge, thousandths],
  ['scaleSqrt', scaleSqrt, d3.scaleSqrt as unknown as Judge, thousandths],
  ['scaleLog', scaleLog, d3.scaleLog as unknown as Judge, positive],
];
const px = fc.integer({ min: -20_000, max: 20_000 }).map((n) => n / 10);
const count = fc.integer({ min: 1, max: 20 });

test.each(KINDS)('%s places, inverts, rounds and ticks as d3 does', (name, ours, theirs, value) => {
  fc.assert(
    fc.property(value, value, px, px, value, px, count, fc.boolean(), fc.boolean(), (from, to, left, right, at, place, some, clamped, round) => {
      fc.pre(Math.abs(from - to) > 1e-9 * (Math.abs(to) + (name === 'scaleLog' ? 0 : 1)) && Math.abs(left - right) > 1);
      const mine: Scale = ours().domain([from, to]).range([left, right]).clamp(clamped);
      const judge = theirs();
      judge.domain([from, to]).range([left, right]).clamp(clamped);
      if (round) {
        mine.nice(some);
        judge.nice(some);
      }
      expectNear(mine.domain(), judge.domain());
      expectNear([mine(at)], [judge(at)], Math.abs(right - left));
      if (name !== 'scaleLog' || clamped) expectNear([mine(mine.invert(place))], [judge(judge.invert(place))], Math.abs(right - left));
      expectNear(mine.ticks(some), judge.ticks(some));
    }),
    { seed: 20_260_827, numRuns: 400 },
  );
});

test('a scale gives a copy that goes its own way', () => {
  const scale = scaleLinear().domain([0, 10]).range([0, 100]);
  scale.copy().domain([0, 1]);
  expect(scale(5)).toBe(50);
  expect(scaleLinear().domain([3, 3]).range([0, 10])(3)).toBe(5);
  expect(scaleLinear()(Number.NaN)).toBeNaN();
});

function expectNear(mine: readonly number[], judge: readonly (number | undefined)[], size = 0): void {
  expect(mine).toHaveLength(judge.length);
  mine.forEach((value, i) => {
    const theirs = judge[i] ?? Number.NaN;
    expect(Math.abs(value - theirs), `${value} against ${theirs}`).toBeLessThanOrEqual(1e-9 * Math.max(Math.abs(theirs), size));
  });
}
