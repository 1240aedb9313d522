import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { drawn } from '../../../sim/column/drawn.ts';
import { bandOf } from '../../../sim/column/measure.ts';
import { bandAt, frameAtTime, frontDepth, frontMeeting, highestInBed, inBedAt, instantAtTime, timeOf } from '../../../sim/history/index.ts';
import { advance, runOf } from '../../../sim/run/run.ts';
import { distributionOf } from '../../../sim/chemistry/passage.ts';
import { parseScenario } from '../../../sim/input/scenario.ts';
import { bedOf } from './straight.ts';
import { Planner } from '../../../src/store/threads/planner.ts';

const read = parseScenario(readFileSync('scenarios/cathode-leach.json', 'utf8'), 'cathode-leach');
if (!read.ok) throw new Error('scenario: expected a sound one');
const scenario = drawn({ ...read.scenario, values: { ...read.scenario.values, 'bed.lanes': 1 } });
/** The bottle as it is on this column's bench, mol/L. */
const bottle_M = scenario.liquids.acid.HCl_M;
/** When the sample is on the bed and the acid washes it, min. */
const LOADED_MIN = 22;
const length = scenario.values['bed.length_cm'];
const plan = new Planner(scenario).plan(scenario.procedure);

const acidAt = (time_min: number, depth_cm: number): number => inBedAt(plan, 'HCl', instantAtTime(plan, time_min), depth_cm);

describe('inBedAt(...) of the acid', () => {
  test('is water at the start and the acid that was poured before the water comes', () => {
    expect(acidAt(0, 3)).toBe(0);
    expect(acidAt(plan.logEnd.time_min / 2, 3)).toBeCloseTo(bottle_M, 2);
  });

  test('agrees with the state of the model at that time', () => {
    const run = runOf(scenario, scenario.procedure);
    const meeting = frontMeeting(plan, 'Co', distributionOf(scenario, 'Co'));
    advance(run, { time_min: meeting?.time_min ?? 0 });
    const plate = 40;
    const depth = ((plate + 0.5) / plan.plates) * length;
    expect(acidAt(run.bed.scalar[AT.time], depth)).toBeCloseTo(run.bed.pore[plate], 1);
  });

  test('lies within what the bed holds, whatever the depth', () => {
    for (const depth of [-1, 0, 0.01, length / 2, length, length + 1]) {
      const acid = acidAt(LOADED_MIN, depth);
      expect(acid).toBeGreaterThanOrEqual(0);
      expect(acid).toBeLessThanOrEqual(highestInBed(plan, 'HCl') + 1e-9);
    }
  });
});

test('frameAtTime finds the last frame at or before a time', () => {
  const time = timeOf(plan, 100);
  expect(frameAtTime(plan, time)).toBe(100);
  expect(frameAtTime(plan, time - 1e-6)).toBe(99);
  expect(frameAtTime(plan, -1)).toBe(0);
});

describe('frontMeeting', () => {
  const meeting = frontMeeting(plan, 'Co', distributionOf(scenario, 'Co'));

  test('finds the water front at the cobalt band, where half of the acid is gone', () => {
    expect(meeting).toBeDefined();
    if (!meeting) return;
    expect(acidAt(meeting.time_min, meeting.depth_cm)).toBeLessThan(4.6);
    expect(acidAt(meeting.from_min, meeting.depth_cm)).toBeGreaterThan(8.5);
    expect(acidAt(meeting.to_min, meeting.depth_cm)).toBeLessThan(1);
    expect(meeting.before_M).toBeCloseTo(bottle_M, 1);
    const before = bandAt(plan, 'Co', frameAtTime(plan, meeting.from_min));
    const after = bandAt(plan, 'Co', frameAtTime(plan, meeting.to_min));
    expect(before?.centroid_cm).toBeLessThan(meeting.depth_cm + 0.3);
    expect(after?.centroid_cm ?? length).toBeGreaterThan(meeting.depth_cm + 1);
  });

  test('finds none for nickel, which no acid holds', () => {
    expect(frontMeeting(plan, 'Ni', distributionOf(scenario, 'Ni'))).toBeUndefined();
  });

  test('finds none while nothing is poured', () => {
    expect(frontMeeting(new Planner(scenario).plan([]), 'Co', distributionOf(scenario, 'Co'))).toBeUndefined();
  });
});

test('bandAt gives the edges that the model measures', () => {
  const run = runOf(scenario, scenario.procedure);
  advance(run, { time_min: LOADED_MIN });
  const frame = frameAtTime(plan, run.bed.scalar[AT.time]);
  const band = bandAt(plan, 'Co', frame);
  const measured = bandOf(run.bed, run.column, 'Co');
  expect(band?.centroid_cm).toBeCloseTo(measured?.centroid_cm ?? Number.NaN, 1);
  expect(band?.leading_cm).toBeCloseTo(measured?.leading_cm ?? Number.NaN, 1);
  expect(band?.amount_mmol).toBeCloseTo(measured?.amount_mmol ?? Number.NaN, 3);
});

test('frontDepth(...) lies where the acid crosses a molarity, and nowhere in an even bed', () => {
  // Plates of 2.5 cm, middles at 1.25, 3.75, 6.25 and 8.75 cm: 8 M falls to nothing between the second and the third.
  const bed = bedOf([0, 0, 0, 0], 1, [8, 8, 0, 0]);
  expect([4, 2, 9].map((level) => frontDepth(bed, 0, level))).toEqual([5, 5.625, Number.NaN]);
  expect([0, 3.75, 5, 6.25, 99].map((depth) => inBedAt(bed, 'HCl', 0, depth))).toEqual([8, 8, 4, 0, 0]);
});
