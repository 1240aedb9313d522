import { describe, expect, test } from 'vitest';
import { BedPattern } from '../../../src/glass/bed-pattern.ts';
import { momentAtStart, momentWith, scenarioWith } from './moment.ts';

const scenario = scenarioWith({ bed: { plates: 40, lanes: 5 } });

/** Share of the pixels of a lane between two depths (shares of the bed) that carry a mark. */
function inked({ rgba, width, height, lanes }: BedPattern, lane: number, from: number, to: number): number {
  const wide = width / lanes.length;
  let marked = 0;
  let all = 0;
  for (let y = Math.round(from * height); y < Math.round(to * height); y++) {
    for (let x = lanes.indexOf(lane) * wide; x < (lanes.indexOf(lane) + 1) * wide; x++) {
      all++;
      if (rgba[4 * (y * width + x) + 3] > 0) marked++;
    }
  }
  return marked / all;
}

describe('BedPattern', () => {
  test('is empty on a sound bed', () => {
    const pattern = new BedPattern([1, 2, 3, 4], 40, 50);
    pattern.draw(momentAtStart(scenario));
    expect(pattern.marked).toBe(false);
  });

  test('hatches what has run dry and closes it with a line, lane by lane', () => {
    const pattern = new BedPattern([1, 2, 3, 4], 40, 50);
    pattern.draw(momentWith(scenario, () => ({}), { drained: Float64Array.from([0, 10, 0, 0, 20]) }));
    expect(inked(pattern, 1, 0, 0.2)).toBeGreaterThan(0.15);
    expect(inked(pattern, 1, 0.3, 1)).toBe(0);
    expect(inked(pattern, 2, 0, 1)).toBe(0);
    expect(inked(pattern, 4, 0.3, 0.45)).toBeGreaterThan(0.15);
    expect(inked(pattern, 4, 0.495, 0.5)).toBe(1);
  });

  test('has more bubbles where there is more gas', () => {
    const pattern = new BedPattern([1, 2, 3, 4], 40, 50);
    pattern.draw(momentWith(scenario, (lane) => ({ gas: [0, 0, 0.05, 0.15, 0.4][lane] })));
    const shares = [1, 2, 3, 4].map((lane) => inked(pattern, lane, 0, 1));
    expect(shares[0]).toBe(0);
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
  });

  test('dots the place of missing resin', () => {
    const pattern = new BedPattern([1, 2, 3, 4], 40, 50);
    pattern.draw(momentWith(scenario, (lane, plate) => (lane === 2 && plate < 10 ? { resinShare: 0 } : {})));
    expect(inked(pattern, 2, 0, 0.25)).toBeGreaterThan(0.03);
    expect(inked(pattern, 1, 0, 1)).toBe(0);
  });

  test('is drawn again only when gas, water line or resin have changed', () => {
    const pattern = new BedPattern([1, 2, 3, 4], 40, 50);
    const moment = momentWith(scenario, () => ({ gas: 0.2 }));
    expect(pattern.draw(moment)).toBe(true);
    expect(pattern.draw({ ...moment, pore: moment.pore.map((c) => c + 1) })).toBe(false);
  });
});
