import { expect, test } from 'vitest';
import { axisEnd } from '../../../src/figure/drawing.ts';
import { layoutOf } from '../../../src/figure/layout.ts';
import { wholeRun } from './runs.ts';

test('the place of the bed depends on the height alone', () => {
  const widths = [320, 360, 559, 560, 900, 1600];
  const beds = widths.map((width) => layoutOf(width, 600).depth);
  for (const bed of beds) expect(bed).toEqual(beds[0]);
});

test('rows follow one another from top to bottom and fill the height', () => {
  for (const height of [396, 440, 480, 600, 900]) {
    const { lane, poured, depth, legend, effluent, receivers } = layoutOf(800, height);
    const rows = [lane, poured, depth, legend, effluent, receivers];
    rows.forEach((row, i) => expect(row.top).toBeGreaterThanOrEqual(rows[i - 1]?.bottom ?? 0));
    for (const row of rows) expect(row.bottom - row.top).toBeGreaterThanOrEqual(20);
    expect(receivers.bottom).toBe(height);
  }
});

test('a figure too low for its rows keeps the least height', () => {
  expect(layoutOf(800, 100).height).toBe(396);
});

test('seen by eye the bed takes far more room, and the rows still fill the height', () => {
  for (const height of [440, 590, 700]) {
    const [eye, measured] = [layoutOf(800, height, true), layoutOf(800, height)];
    expect(eye.depth.bottom - eye.depth.top).toBeGreaterThanOrEqual(1.3 * (measured.depth.bottom - measured.depth.top));
    expect(eye.receivers.bottom).toBe(height);
  }
});

test('the axis ends with the procedure; by eye, of a day, with the aliquot in hand, so that there is room to judge it', () => {
  const { scenario, planner } = wholeRun('lab-day');
  const begun = planner.plan(scenario.procedure.slice(0, 2));
  const poured = scenario.procedure.reduce((sum, action) => sum + (action.do === 'pour' ? action.volume_mL : 0), 0);
  expect(axisEnd(scenario, begun)).toBeGreaterThanOrEqual(poured);
  const third = poured / 3;
  for (const [now_mL, aliquot] of [
    [0, 1],
    [third - 1, 1],
    [third + 1, 2],
    [2 * third + 1, 3],
  ]) {
    expect(axisEnd(scenario, begun, now_mL)).toBeGreaterThanOrEqual(aliquot * third);
    expect(axisEnd(scenario, begun, now_mL)).toBeLessThan((aliquot + 0.3) * third);
  }
  const single = wholeRun('cathode-leach');
  expect(axisEnd(single.scenario, single.plan, 0)).toBe(axisEnd(single.scenario, single.plan));
});
