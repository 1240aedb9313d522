import { differenceCiede2000, type Rgb } from 'culori';
import { expect, test } from 'vitest';
import { bedColour } from '../../../sim/colour/index.ts';
import { EDGE_SHARE } from '../../../sim/column/measure.ts';
import {
  BAND_LEAST,
  bandAt,
  bandNow,
  bandOnRuler,
  bedHeightOf,
  belowTop,
  depthAtReading,
  frameAtTime,
  progressOf,
  readingAt,
  trackOf,
  trackOnRuler,
} from '../../../sim/history/index.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { wholeRun } from '../../src/figure/runs.ts';
import { bedOf } from './straight.ts';

const { scenario, plan } = wholeRun('cathode-leach');

test('edges enclose the middle of a band and stay in the bed', () => {
  for (const { share, leading_cm, trailing_cm, middle_cm } of plan.ions.map((ion) => trackOf(plan, ion))) {
    const there = [...share.keys()].filter((frame) => share[frame] > 0);
    expect(there.length).toBeGreaterThan(30);
    for (const frame of there) {
      const depths = [0, trailing_cm[frame], middle_cm[frame], leading_cm[frame], plan.length_cm];
      expect(depths).toEqual([...depths].sort((a, b) => a - b));
    }
  }
});

test('edges of a normal band lie 2.448 standard deviations from its middle', () => {
  // exp(-z²/2) = 0.05 at z = sqrt(2 ln 20) = 2.4477 (closed form). 0.5 cm in a bed of 10 cm.
  const band = bandAt(
    bedOf(
      Array.from({ length: 1000 }, (_, j) => Math.exp(-(((j + 0.5) / 100 - 5) ** 2) / (2 * 0.5 ** 2))),
      1,
    ),
    'Co',
    0,
  );
  expect(band?.centroid_cm).toBeCloseTo(5, 3);
  expect(band?.leading_cm).toBeCloseTo(5 + 2.4477 * 0.5, 2);
  expect(band?.trailing_cm).toBeCloseTo(5 - 2.4477 * 0.5, 2);
});

test('an edge lies where the colour is about half-way between the band and the bare bed', () => {
  // No outside figure: the rule that EDGE_SHARE states, with the colours of the model and the colour difference CIEDE2000 (culori).
  const difference = differenceCiede2000();
  const colourAt = (sorbed: number): Rgb => {
    const [r, g, b] = bedColour({ HCl_M: 9, pore: {}, resin: { Co: sorbed } }, 25, { porosity: 0.38, beadUm: 250 });
    return { mode: 'rgb', r, g, b };
  };
  for (const peak of [0.03, 0.06, 0.1]) {
    const share = difference(colourAt(EDGE_SHARE * peak), colourAt(0)) / difference(colourAt(peak), colourAt(0));
    expect(share).toBeGreaterThan(0.35);
    expect(share).toBeLessThan(0.65);
  }
});

test('a band holds at least a fiftieth of what was poured', () => {
  expect(BAND_LEAST).toBe(0.02);
  // 4 plates of 5 mL, 0.004 mmol/mL in one of them: 0.02 mmol.
  const bed = (poured_mmol: number) => bedOf([0, 0.004, 0, 0], poured_mmol);
  expect(bandAt(bed(0.99), 'Co', 0)).toMatchObject({ amount_mmol: expect.closeTo(0.02, 6), centroid_cm: 3.75 });
  expect(bandAt(bed(1.01), 'Co', 0)).toBeUndefined();
  expect(bandAt(bed(0.99), 'Zn', 0)).toBeUndefined();
});

test('the band of a frame is the band of that moment, read on the ruler', () => {
  const fresh = new Planner(scenario);
  const whole = fresh.plan(scenario.procedure);
  const { eluentEntry } = progressOf(scenario, whole.events);
  const water_min = whole.events.find(({ entry }) => entry === eluentEntry)?.time_min ?? Number.NaN;
  for (const time_min of [water_min - 8, water_min - 1]) {
    const moment = fresh.moment(time_min);
    const frame = frameAtTime(whole, moment.time_min);
    const [packed, read, now] = [bandAt(whole, 'Co', frame), bandOnRuler(whole, 'Co', frame), bandNow(moment.results, 'Co')];
    expect(read?.leading_cm).toBeCloseTo(now?.leading_cm ?? Number.NaN, 1);
    expect(read?.trailing_cm).toBeCloseTo(now?.trailing_cm ?? Number.NaN, 1);
    expect(read?.amount_mmol).toBeCloseTo(now?.amount_mmol ?? Number.NaN, 2);
    // In 9 M acid the bed is about a twentieth shorter than as packed, so every mark stands lower on the ruler.
    expect((read?.trailing_cm ?? 0) - (packed?.trailing_cm ?? 0)).toBeGreaterThan(0.1);
  }
});

test('a mark on a bed that has sunk by a twentieth on its support reads lower, and back', () => {
  // By hand: 4 cm down a bed packed to 10 cm is 6 cm above the support; on 9.5 cm of bed that is 5.7 cm, so the ruler reads 4.3 cm.
  expect(readingAt(10, 9.5, 4)).toBeCloseTo(4.3, 12);
  expect(depthAtReading(10, 9.5, 4.3)).toBeCloseTo(4, 12);
  expect([readingAt(10, 9.5, 0), readingAt(10, 9.5, 10), depthAtReading(10, 9.5, 0.2)]).toEqual([0.5, 10, 0]);
  expect([readingAt(10, 0, 4), depthAtReading(10, 0, 4)]).toEqual([10, 10]);
});

test('a track on the ruler reads in every frame what the band of that frame reads', () => {
  const read = trackOnRuler(plan, trackOf(plan, 'Co'));
  const there = [...read.share.keys()].filter((frame) => read.share[frame] > 0);
  for (const frame of there) expect(read.leading_cm[frame]).toBeCloseTo(bandOnRuler(plan, 'Co', frame)?.leading_cm ?? Number.NaN, 4);
  const [frame] = there.slice(-1);
  const below = belowTop(plan, frame, trackOf(plan, 'Co').leading_cm[frame]);
  expect(below).toBeCloseTo(read.leading_cm[frame] - (plan.length_cm - bedHeightOf(plan, frame)), 4);
});
