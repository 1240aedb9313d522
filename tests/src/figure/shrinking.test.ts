import { expect, test } from 'vitest';
import { bedHeightOf, deliveredOf } from '../../../sim/history/index.ts';
import { depthAtFrame } from '../../../src/figure/drawing.ts';
import { lookByPointer } from '../../../src/figure/cursor/look.ts';
import { framesOfColumns, inksOf, streaksInto } from '../../../src/figure/streaks/streaks.ts';
import { wholeRun, workedRun } from './runs.ts';

// The bed shrinks in acid and swells again in water; the figure stands on the support and its top sinks and rises.

const worked = workedRun('cathode-leach');
const { plan, layout } = worked;
const { top, bottom } = layout.depth;
const least = Array.from({ length: plan.count }, (_, frame) => frame).reduce((a, b) => (bedHeightOf(plan, b) < bedHeightOf(plan, a) ? b : a));

test('the bed of the run is shorter in 9 M acid than as packed, by the shrinkage of its resin at most, and back in water at the end', () => {
  const { values } = wholeRun('cathode-leach').scenario;
  expect(bedHeightOf(plan, 0)).toBeCloseTo(plan.length_cm, 9);
  const lost = 1 - bedHeightOf(plan, least) / plan.length_cm;
  expect(lost).toBeGreaterThan(0.5 * values['resin.shrinkage']);
  expect(lost).toBeLessThanOrEqual(values['resin.shrinkage'] + 1e-9);
  expect(bedHeightOf(plan, plan.count - 1)).toBeGreaterThan(bedHeightOf(plan, least));
});

test('depths are drawn at their share of the bed of that frame, on a bottom that stays', () => {
  const y = depthAtFrame(worked, least);
  const px = (bottom - top) / plan.length_cm;
  expect(y(plan.length_cm)).toBeCloseTo(bottom, 9);
  expect(bottom - y(0)).toBeCloseTo(bedHeightOf(plan, least) * px, 9);
  expect(y(0) - top).toBeGreaterThan(3);
  expect(y(plan.length_cm / 2)).toBeCloseTo((y(0) + bottom) / 2, 9);
});

test('what is pointed at is the depth that is drawn there', () => {
  const mL = deliveredOf(plan, least);
  for (const share of [0, 0.25, 0.8, 1]) {
    const look = lookByPointer(worked, worked.x(mL), depthAtFrame(worked, least)(share * plan.length_cm), worked.end_mL);
    expect(look.share).toBeCloseTo(share, 2);
  }
  expect(lookByPointer(worked, worked.x(mL), top, worked.end_mL).share).toBe(0);
  expect(lookByPointer(worked, worked.x(mL), bottom + 10, worked.end_mL).share).toBeGreaterThan(1);
});

test('the picture of the bands has nothing above the bed, and covers it to its top', () => {
  const columns = 300;
  const frames = framesOfColumns(plan, columns, worked.end_mL);
  const pixels = new Uint8ClampedArray(columns * plan.plates * 4);
  streaksInto(pixels, plan, frames, inksOf(['HCl', ...plan.ions], 'light'), worked.tops);
  for (const [x, frame] of frames.entries()) {
    let covered = 0;
    for (let j = 0; j < plan.plates; j++) covered += pixels[(j * columns + x) * 4 + 3] / 255;
    const height = frame < 0 ? 0 : Math.min(1, bedHeightOf(plan, frame) / plan.length_cm);
    expect(covered / plan.plates).toBeCloseTo(height, 2);
  }
});
