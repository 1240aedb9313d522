import { expect, test } from 'vitest';
import { timeOf } from '../../../sim/history/index.ts';
import { pointAt } from '../../../src/figure/cursor/point.ts';
import { spokenPoint } from '../../../src/figure/cursor/read-out.ts';
import { wholeRun } from './runs.ts';

const { scenario, planner, plan } = wholeRun('cathode-leach');

test('pointAt(...) tells the same column as the model at that moment', () => {
  for (const frame of [120, 240, 400, 500]) {
    const time = timeOf(plan, frame);
    const moment = planner.moment(time);
    const point = pointAt(scenario, plan, moment.delivered_mL, 2);
    expect(point.time_min).toBeCloseTo(moment.time_min, 6);
    for (const { ion, edges } of point.ions) {
      const band = moment.results.bands[ion];
      if (!edges || !band) continue;
      expect(point.read(edges.leading_cm)).toBeCloseTo(band.leading_cm, 1);
      expect(point.read(edges.trailing_cm)).toBeCloseTo(band.trailing_cm, 1);
    }
    expect(point.receiver).toBe(plan.labels[moment.receiver]);
  }
});

test('pointAt(...) names the liquid poured last and clamps to the run', () => {
  expect(pointAt(scenario, plan, 30, 1).poured).toBe('9 M HCl');
  expect(pointAt(scenario, plan, 60, 1).poured).toBe('water');
  expect(pointAt(scenario, plan, -5, 1).delivered_mL).toBe(0);
  expect(pointAt(scenario, plan, 1e6, 99).delivered_mL).toBeCloseTo(plan.results.delivered_mL, 1);
});

test('spokenPoint(...) reads everything with its unit and no bare symbols', () => {
  const said = spokenPoint(pointAt(scenario, plan, 30, 1));
  for (const part of ['millilitres delivered', 'minutes', '9 M HCl poured', 'centimetres depth', 'cobalt(II)', 'nickel(II)', 'band from', 'Leaving: HCl'])
    expect(said).toContain(part);
  expect(said).not.toMatch(/[×⁻²⁺\u202f]/);
});
