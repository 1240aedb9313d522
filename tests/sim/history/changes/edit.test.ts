import { describe, expect, test } from 'vitest';
import { runWhole } from '../../../../sim/run/run.ts';
import { resultsOf } from '../../../../sim/run/results.ts';
import { handlesOf, movedEluent, movedReceiver, spansOf, withReceiverMoved } from '../../../../sim/history/index.ts';
import type { Action } from '../../../../sim/terms/types.ts';
import { Planner } from '../../../../src/store/threads/planner.ts';
import { small } from '../../../src/store/rig.ts';

const SCENARIO = small();
const PLAN = new Planner(SCENARIO).plan(SCENARIO.procedure);
const HANDLES = handlesOf(PLAN.log, PLAN.events);

function handle(label: string, kind: 'eluent' | 'receiver') {
  const found = HANDLES.findLast((one) => one.label === label && one.kind === kind);
  if (!found) throw new Error(`${kind} ${label}: expected a handle`);
  return found;
}

describe('handlesOf()', () => {
  test('gives one handle for each change of liquid and of receiver after the first drop', () => {
    expect(HANDLES.map(({ kind, label }) => `${kind} ${label}`)).toEqual(['eluent acid', 'eluent sample', 'eluent acid', 'eluent water', 'receiver cobalt']);
  });

  test('leaves out what was refused', () => {
    const plan = new Planner(SCENARIO).plan([
      { do: 'clamp', open_percent: 100 },
      { do: 'wait', until: { more_mL: 0.3 } },
      { do: 'pour', liquid: 'acid', volume_mL: 900 },
    ]);
    expect(plan.results.refused).toHaveLength(1);
    expect(handlesOf(plan.log, plan.events)).toEqual([]);
  });
});

describe('a moved receiver', () => {
  const { entry, delivered_mL } = handle('cobalt', 'receiver');

  test.each([-1.5, -0.1, 2.4, 6])('takes what was delivered from there on, moved by %f mL', (by) => {
    const log = movedReceiver(PLAN.log, PLAN.events, entry, delivered_mL + by);
    const plan = new Planner(SCENARIO).plan(log);
    expect(spansOf(plan).map(({ label }) => label)).toEqual(['nickel', 'cobalt']);
    expect(handlesOf(log, plan.events).find(({ kind }) => kind === 'receiver')?.delivered_mL).toBeCloseTo(delivered_mL + by, 6);
    expect(plan.logEnd.delivered_mL).toBeCloseTo(PLAN.logEnd.delivered_mL, 6);
  });

  test.each([-1.5, 2.4, 6])('previewed without the model holds what a fresh run gives, moved by %f mL', (by) => {
    const preview = withReceiverMoved(PLAN, entry, delivered_mL + by);
    const fresh = resultsOf(runWhole(SCENARIO, movedReceiver(PLAN.log, PLAN.events, entry, delivered_mL + by)));
    fresh.receivers.forEach((receiver, slot) => {
      const shown = preview.results.receivers[slot];
      expect(shown?.label).toBe(receiver.label);
      // Between two frames of 0.1 mL amounts are interpolated; a percent of the loaded ion is the allowance, and of a drop of acid.
      expect(Number(shown?.['Co_mmol'])).toBeCloseTo(Number(receiver['Co_mmol']), 2);
      expect(Math.abs(Number(shown?.HCl_mmol) - receiver.HCl_mmol)).toBeLessThan(0.05 * 9);
      // The drop that hangs at the tip goes to the vessel before; a drop is at most 0.06 mL.
      expect(Math.abs(Number(shown?.volume_mL) - receiver.volume_mL)).toBeLessThan(0.06);
    });
  });
});

describe('a moved eluent', () => {
  const { entry, delivered_mL } = handle('water', 'eluent');
  const poured = (log: typeof PLAN.log, liquid: string) =>
    log.reduce((sum, action) => sum + (action.do === 'pour' && action.liquid === liquid ? action.volume_mL : 0), 0);

  test.each([-3, -0.5, 0.5, 4])('takes its volume from the eluent before it, moved by %f mL', (by) => {
    const log = movedEluent(PLAN.log, PLAN.events, entry, delivered_mL + by);
    expect(poured(log, 'acid')).toBeCloseTo(poured(PLAN.log, 'acid') + by, 9);
    expect(poured(log, 'water')).toBeCloseTo(poured(PLAN.log, 'water'), 9);
  });

  test.each([-8, -3, 0.5, 4])('is poured there, and the receiver is changed as long after it as before, moved by %f mL', (by) => {
    const log = movedEluent(PLAN.log, PLAN.events, entry, delivered_mL + by);
    const plan = new Planner(SCENARIO).plan(log);
    const handles = handlesOf(plan.log, plan.events);
    const water = handles.find(({ label }) => label === 'water')?.delivered_mL ?? 0;
    const cobalt = handles.find(({ label }) => label === 'cobalt')?.delivered_mL ?? 0;
    expect(plan.results.refused).toEqual([]);
    expect(plan.results.lowestLiquid_mm).toBeGreaterThan(0.5);
    expect(water).toBeCloseTo(delivered_mL + by, 6);
    expect(cobalt - water).toBeCloseTo(handle('cobalt', 'receiver').delivered_mL - delivered_mL, 6);
  });
});

describe('a log with pours that hang on a band', () => {
  const wash = SCENARIO.procedure.findLastIndex((action) => action.do === 'pour' && action.liquid === 'acid');
  const portions = Array.from({ length: 12 }, (): Action[] => [
    { do: 'pour', liquid: 'acid', volume_mL: 2, unless: { ion: 'Co', above_bottom_mm: 10 } },
    { do: 'wait', until: { liquid_mm: 1 } },
  ]).flat();
  const plan = new Planner(SCENARIO).plan([...SCENARIO.procedure.slice(0, wash), ...portions, ...SCENARIO.procedure.slice(wash + 2)]);
  const left = plan.events.filter(({ entry, action }) => entry >= 0 && !action).length;
  const water = handlesOf(plan.log, plan.events).findLast(({ label }) => label === 'water') ?? handle('water', 'eluent');

  test.each([-5, 3])('keeps what was left out out, and does what was done, with the water moved by %f mL', (by) => {
    expect(left).toBeGreaterThan(0);
    expect(left).toBeLessThan(12);
    const again = new Planner(SCENARIO).plan(movedEluent(plan.log, plan.events, water.entry, water.delivered_mL + by));
    expect(again.events.filter(({ entry, action }) => entry >= 0 && !action)).toEqual([]);
    expect(handlesOf(again.log, again.events).findLast(({ label }) => label === 'water')?.delivered_mL).toBeCloseTo(water.delivered_mL + by, 6);
    expect(again.logEnd.delivered_mL).toBeCloseTo(plan.logEnd.delivered_mL + by, 6);
  });

  test('keeps them with a receiver moved too', () => {
    const change = handlesOf(plan.log, plan.events).findLast(({ kind }) => kind === 'receiver') ?? handle('cobalt', 'receiver');
    const again = new Planner(SCENARIO).plan(movedReceiver(plan.log, plan.events, change.entry, change.delivered_mL + 1));
    expect(again.logEnd.delivered_mL).toBeCloseTo(plan.logEnd.delivered_mL, 6);
    expect(handlesOf(again.log, again.events).findLast(({ kind }) => kind === 'receiver')?.delivered_mL).toBeCloseTo(change.delivered_mL + 1, 6);
  });
});
