import { expect, test } from 'vitest';
import { distributionOf, passageOf } from '../../../sim/chemistry/index.ts';
import { drawn } from '../../../sim/column/drawn.ts';
import { bandOnRuler, deliveredAtEnd, frameAt, progressOf } from '../../../sim/history/index.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { edgeSentence, runEdgeSentence, speedsOf } from '../../../src/why/here/edge-words.ts';
import { shipped } from '../store/rig.ts';

// The column of the lesson and what is said of its band, seen before the water.

function washed(cobalt_M: number, exchange = 1) {
  const written = shipped('cathode-leach', { bed: { lanes: 1 } });
  const { sample } = written.liquids;
  const column = drawn({
    ...written,
    liquids: { ...written.liquids, sample: { ...sample, ions: { ...sample.ions, Co: cobalt_M } } },
  });
  const values = { ...column.values, 'resin.Ds_exchange_cm2_s': column.values['resin.Ds_exchange_cm2_s'] * exchange };
  const scenario: Scenario = { ...column, values };
  const plan = new Planner(scenario).plan(scenario.procedure);
  const at_mL = progressOf(scenario, plan.events).eluent_mL ?? 0;
  return { scenario, plan, at_mL, speeds: speedsOf(scenario, plan, 'Co', at_mL) ?? { middle: 0, edge: 0 } };
}

const asShipped = washed(0.18);

test('the middle of the band moves at the share of time that an ion is in the liquid, and the leading edge faster', () => {
  const { scenario, speeds } = asShipped;
  const { speedShare } = passageOf(distributionOf(scenario, 'Co')(scenario.liquids.acid.HCl_M), scenario.values['bed.porosity']);
  expect(speeds.middle / speedShare).toBeGreaterThan(0.85);
  expect(speeds.middle / speedShare).toBeLessThan(1.25);
  expect(speeds.edge).toBeGreaterThan(1.5 * speeds.middle);
});

test('the edge runs ahead because the band widens: not with the load, and less with faster exchange', () => {
  expect(washed(0.0018).speeds.edge / asShipped.speeds.edge).toBeCloseTo(1, 1);
  expect(washed(0.18, 100).speeds.edge).toBeLessThan(0.9 * asShipped.speeds.edge);
});

test('the sentence gives the figures of the run, and is left out where there is no band', () => {
  const { scenario, plan, at_mL, speeds } = asShipped;
  const said = edgeSentence(scenario, plan, 'Co', at_mL);
  expect(said).toContain(`leading edge at ${(100 * speeds.edge).toFixed(1)}\u202f%`);
  expect(said).toContain(`middle of the band moved at ${(100 * speeds.middle).toFixed(1)}\u202f%`);
  expect(edgeSentence(scenario, plan, 'Co', 1)).toBe('');
});

test('of a whole run the speeds under the strong acid are told, and after how many bed volumes the edge was at the bottom', () => {
  const { scenario, plan, at_mL } = asShipped;
  const held = runEdgeSentence(scenario, plan, 'Co', deliveredAtEnd(plan));
  expect(held).toBe(edgeSentence(scenario, plan, 'Co', at_mL));
  // Slower exchange widens it more: the edge is at the bottom before the water.
  const weak = washed(0.18, 0.1);
  const { load_mL = 0 } = progressOf(weak.scenario, weak.plan.events);
  const said = runEdgeSentence(weak.scenario, weak.plan, 'Co', deliveredAtEnd(weak.plan));
  const [, after = '', bedVolumes = ''] = /It was at the bottom ([\d.]+)\u202fmL, or ([\d.]+) bed volumes, after the sample was poured\.$/.exec(said) ?? [];
  expect(said).toContain('its leading edge at');
  expect(Number(after)).toBeGreaterThan(0);
  const edge = (mL: number) => bandOnRuler(weak.plan, 'Co', frameAt(weak.plan, load_mL + mL))?.leading_cm ?? 0;
  expect(edge(Number(after))).toBeGreaterThan(weak.plan.length_cm - 0.1);
  expect(edge(Number(after) - 1)).toBeLessThan(weak.plan.length_cm - 0.05);
  const { 'column.bore_cm': bore_cm, 'bed.length_cm': length_cm } = weak.scenario.values;
  expect(Number(bedVolumes)).toBeCloseTo(Number(after) / ((Math.PI * bore_cm ** 2 * length_cm) / 4), 1);
});
