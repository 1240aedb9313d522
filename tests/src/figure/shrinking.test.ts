import { expect, test } from 'vitest';
import { bedHeightOf, deliveredOf } from '../../../sim/history/index.ts';
import { depthAtFrame, depthScale, nominalTop } from '../../../src/figure/drawing.ts';
import { layoutOf } from '../../../src/figure/layout.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
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

test('a bed packed higher than its nominal length is drawn in full, and the ruler beside it keeps its cm', () => {
  const { scenario } = wholeRun('theory-one-lane');
  const pack = { do: 'pack', resin_mL: 5 } as const;
  const tall = new Planner({ ...scenario, values: { ...scenario.values, 'bench.packed': 0 } }).plan([pack, { do: 'clamp', open_percent: 100 }]);
  const drawing = { scenario, plan: tall, layout: layoutOf(900, 600) };
  const { depth } = drawing.layout;
  // 5 mL of settled resin in a tube of 1 cm bore: 5/(pi/4) = 6.37 cm.
  const heights = Array.from({ length: tall.count }, (_, frame) => bedHeightOf(tall, frame));
  const height_cm = Math.max(...heights);
  expect(height_cm).toBeCloseTo(6.366, 2);
  expect(depthAtFrame(drawing, heights.indexOf(height_cm))(0)).toBeCloseTo(depth.top, 6);
  const scale = depthScale(drawing);
  expect((depth.bottom - depth.top) / height_cm).toBeCloseTo(scale(1) - scale(0), 6);
  expect(nominalTop(drawing)).toBeCloseTo(scale(0), 9);
  expect(scale(tall.length_cm)).toBeCloseTo(depth.bottom, 9);
});
