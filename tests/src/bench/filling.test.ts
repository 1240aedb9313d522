import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readScenario } from '../../../sim/input/index.ts';
import { GRADES } from '../../../sim/terms/grades.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { awaitsResin, portionsIn } from '../../../src/bench/packing/empty.ts';
import { dripWords, firstWords, isFull, look, offered_mL, portion, standsWords } from '../../../src/bench/packing/filling.ts';
import { gradeOf, startOf } from '../../../src/bench/packing/start.ts';
import type { Json } from '../../../src/store/keep/saved.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { shipped } from '../store/rig.ts';

// Shorter runs, one lane; no resistance drawn apart, so that a bed of the stated length comes of the stated resin.
const EMPTY = shipped('cathode-leach', { bed: { lanes: 1 }, bench: { packed: 0 }, differ: {} });

test('a tube filled by the portions offered holds about the height asked for: height is settled volume over section', () => {
  const log: Log[number][] = [];
  const planner = new Planner(EMPTY);
  const now = () => planner.moment(planner.plan(log).logEnd.time_min);
  const radius_cm = EMPTY.values['column.bore_cm'] / 2;
  let resin_mL = 0;
  let moment = now();
  expect(awaitsResin(EMPTY, moment)).toBe(true);
  expect(moment.bed_cm).toBe(0);
  const told_cm = Number(/settle to about ([\d.]+)/.exec(firstWords(EMPTY, moment))?.[1]);
  for (let n = 1; n <= 4 && !isFull(EMPTY, moment); n++) {
    const next_mL = offered_mL(EMPTY, moment);
    log.push(...portion(EMPTY, { do: 'pack', resin_mL: next_mL }));
    resin_mL += next_mL;
    moment = now();
    expect(moment.events.filter(({ refused }) => refused)).toEqual([]);
    expect(portionsIn(moment)).toBe(n);
    expect(moment.settling_min).toBe(0);
    if (n === 1) expect(Math.abs(moment.bed_cm - told_cm)).toBeLessThan(0.2);
    expect(moment.bed_cm).toBeCloseTo(resin_mL / (Math.PI * radius_cm ** 2), 1);
  }
  expect(moment.bed_cm).toBeGreaterThan(6.5);
  expect(moment.bed_cm).toBeLessThan(7.5);
  expect(standsWords(moment)).toBe(`${moment.bed_cm.toFixed(1)} cm of resin under ${moment.level_cm.toFixed(1)} cm of liquid.`);
  log.push(...look());
  moment = now();
  expect(moment.delivered_mL).toBeCloseTo(1, 1);
  expect(dripWords(EMPTY, moment)).toMatch(/^\d+ drops a minute under \d+\.\d cm of liquid\./);
  log.push({ do: 'pour', liquid: 'acid', volume_mL: 1 });
  expect(awaitsResin(EMPTY, now())).toBe(false);
});

test('what was just poured is still settling', () => {
  const planner = new Planner(EMPTY);
  planner.plan(portion(EMPTY, { do: 'pack', resin_mL: 3.6 }));
  const moment = planner.moment(0.1);
  expect(moment.settling_min).toBeGreaterThan(0);
  expect(standsWords(moment)).toMatch(/^The resin is settling: \d+\.\d min to go\.$/);
});

// The shipped scenario sets no number of the resin by itself.
const SHIPPED: Json = JSON.parse(readFileSync(join(import.meta.dirname, '..', '..', '..', 'scenarios', 'cathode-leach.json'), 'utf8'));
const FINE = '100-200 mesh, 4 % cross-linked';

test('another grade brings its own numbers, also where the scenario had set one by itself', () => {
  const json = startOf({ bed: { bead_um: 300, length_cm: 8 }, resin: { tint_per_cm: 3 }, seed: 5 }, FINE, false);
  expect(json).toEqual({ bed: { length_cm: 8 }, resin: { grade: FINE }, bench: { packed: 0 }, seed: 5 });
  expect(gradeOf(json)).toBe(FINE);
});

test('the same grade leaves the numbers of the scenario, and a packed bed is how it was without', () => {
  const json = { bed: { bead_um: 300 }, resin: { grade: FINE } };
  expect(startOf(startOf(json, FINE, false), FINE, true)).toEqual({ ...json, bench: {} });
});

test('every grade starts the shipped scenario with its numbers in an empty tube', () => {
  for (const [grade, numbers] of Object.entries(GRADES)) {
    const named = gradeOf({ resin: { grade } });
    expect(named).toBe(grade);
    const read = readScenario(startOf(SHIPPED, named, false), 'cathode-leach');
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    expect(read.scenario.values['bench.packed']).toBe(0);
    for (const [path, { value }] of Object.entries(numbers))
      expect({ path, value: Object.entries(read.scenario.values).find(([of]) => of === path)?.[1] }).toEqual({ path, value });
  }
});
