import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readScenario } from '../../../sim/input/index.ts';
import { GRADES } from '../../../sim/terms/grades.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { amiss_cm, awaitsResin, portionsIn, resinIn } from '../../../src/bench/packing/empty.ts';
import { dripWords, firstWords, isFull, look, offered_mL, portion, standsWords } from '../../../src/bench/packing/filling.ts';
import { sayRefusal } from '../../../src/bench/words.ts';
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
  expect(standsWords(EMPTY, moment)).toBe(`${moment.bed_cm.toFixed(1)} cm of resin under ${moment.level_cm.toFixed(1)} cm of liquid. High enough.`);
  log.push(...look());
  moment = now();
  expect(moment.delivered_mL).toBeCloseTo(1, 1);
  expect(dripWords(EMPTY, moment)).toMatch(/^\d+ drops a minute under \d+\.\d cm of liquid\./);
  log.push({ do: 'pour', liquid: 'acid', volume_mL: 1 });
  expect(awaitsResin(EMPTY, now())).toBe(false);
});

/** A tube with these portions settled in it. */
function filled(...portions_mL: number[]) {
  const planner = new Planner(EMPTY);
  const plan = planner.plan(portions_mL.flatMap((resin_mL) => portion(EMPTY, { do: 'pack', resin_mL })));
  return planner.moment(plan.logEnd.time_min);
}

/** Resin for the wanted height, mL: section times height. */
const WANTED_ML = (Math.PI * EMPTY.values['column.bore_cm'] ** 2 * EMPTY.values['bed.length_cm']) / 4;
const spaced = (text: string) => text.replaceAll(/[\u00a0\u202f]/g, ' ');

test('what is still needed is said from the first word on, and no more of it is offered', () => {
  const first = filled();
  expect(spaced(firstWords(EMPTY, first))).toContain(`7 cm take about ${WANTED_ML.toFixed(1)} mL`);
  const low = filled(3.6);
  expect(isFull(EMPTY, low)).toBe(false);
  expect(spaced(standsWords(EMPTY, low))).toMatch(new RegExp(`Too little: 7 cm take about ${(WANTED_ML - 3.6).toFixed(1)} mL more\\.$`));
  expect(offered_mL(EMPTY, low)).toBe(0.5);
  expect(offered_mL(EMPTY, filled(3.6, 0.5))).toBeCloseTo(WANTED_ML - 4.1, 1);
  expect(dripWords(EMPTY, { ...low, flow: 1 })).toMatch(/Too little: .* Undo to add it\.$/);
});

test('too much is said as well, and is not offered to be made right by more', () => {
  const high = filled(WANTED_ML + 1);
  expect(isFull(EMPTY, high)).toBe(true);
  // A millilitre in this tube.
  const over_cm = 4 / (Math.PI * EMPTY.values['column.bore_cm'] ** 2);
  expect(spaced(standsWords(EMPTY, high))).toContain(`That is ${over_cm.toFixed(1)} cm too much`);
  expect(dripWords(EMPTY, { ...high, flow: 1 })).not.toContain('Undo');
});

test('the filling counts as done only within half a centimetre of the height that was asked for', () => {
  const of = (resin_mL: number) => amiss_cm(EMPTY, (4 * resin_mL) / (Math.PI * EMPTY.values['column.bore_cm'] ** 2));
  expect(of(WANTED_ML)).toBe(0);
  expect(of(3.7)).toBeLessThan(-0.5);
  expect(of(WANTED_ML + 1)).toBeGreaterThan(0.5);
  expect(resinIn(filled(3.6, 0.5))).toBeCloseTo(4.1, 9);
});

test('slurry that would run over is refused in words', () => {
  const planner = new Planner(EMPTY);
  const plan = planner.plan([3.7, 2, 2].flatMap((resin_mL) => portion(EMPTY, { do: 'pack', resin_mL })));
  const refusal = plan.events.find(({ refused }) => refused);
  expect(refusal && sayRefusal(refusal, 0)).toMatch(/^There is no room for that: the slurry would stand 2\d\.\d cm high and run over\. Pour less\.$/);
});

test('what was just poured is still settling', () => {
  const planner = new Planner(EMPTY);
  planner.plan(portion(EMPTY, { do: 'pack', resin_mL: 3.6 }));
  const moment = planner.moment(0.1);
  expect(moment.settling_min).toBeGreaterThan(0);
  expect(standsWords(EMPTY, moment)).toMatch(/^The resin is settling: \d+\.\d min to go\.$/);
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
