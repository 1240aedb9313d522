import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { bandOf } from '../../../sim/column/measure.ts';
import { FRAME } from '../../../sim/history/record.ts';
import { advance, runOf } from '../../../sim/run/run.ts';
import { distributionOf } from '../../../sim/chemistry/passage.ts';
import { parseScenario } from '../../../sim/input/scenario.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { acidAt, bandAt, frameAtTime, frontMeeting, strongest } from '../../../src/why/bed/bed-now.ts';

const read = parseScenario(readFileSync('scenarios/cathode-leach.json', 'utf8'), 'cathode-leach');
if (!read.ok) throw new Error('scenario: expected a sound one');
const scenario = { ...read.scenario, values: { ...read.scenario.values, 'bed.lanes': 1 } };
/** When the sample is on the bed and the acid washes it, min. */
const LOADED_MIN = 45;
const length = scenario.values['bed.length_cm'];
const plan = new Planner(scenario).plan(scenario.procedure);

describe('acidAt', () => {
  test('is water at the start and the acid that was poured before the water comes', () => {
    expect(acidAt(plan, 0, 3, length)).toBe(0);
    expect(acidAt(plan, plan.logEnd.time_min / 2, 3, length)).toBeCloseTo(9, 2);
  });

  test('agrees with the state of the model at that time', () => {
    const run = runOf(scenario, scenario.procedure);
    const meeting = frontMeeting(plan, 'Co', length, distributionOf(scenario, 'Co'));
    advance(run, { time_min: meeting?.time_min ?? 0 });
    const plate = 40;
    const depth = ((plate + 0.5) / plan.plates) * length;
    expect(acidAt(plan, run.bed.scalar[AT.time], depth, length)).toBeCloseTo(run.bed.pore[plate], 1);
  });

  test('lies within what the bed holds, whatever the depth', () => {
    for (const depth of [-1, 0, 0.01, length / 2, length, length + 1]) {
      const acid = acidAt(plan, LOADED_MIN, depth, length);
      expect(acid).toBeGreaterThanOrEqual(0);
      expect(acid).toBeLessThanOrEqual(strongest(plan) + 1e-9);
    }
  });
});

test('frameAtTime finds the last frame at or before a time', () => {
  const time = plan.rows[100 * plan.stride + FRAME.time];
  expect(frameAtTime(plan, time)).toBe(100);
  expect(frameAtTime(plan, time - 1e-6)).toBe(99);
  expect(frameAtTime(plan, -1)).toBe(0);
});

describe('frontMeeting', () => {
  const meeting = frontMeeting(plan, 'Co', length, distributionOf(scenario, 'Co'));

  test('finds the water front at the cobalt band, where half of the acid is gone', () => {
    expect(meeting).toBeDefined();
    if (!meeting) return;
    expect(acidAt(plan, meeting.time_min, meeting.depth_cm, length)).toBeLessThan(4.6);
    expect(acidAt(plan, meeting.from_min, meeting.depth_cm, length)).toBeGreaterThan(8.5);
    expect(acidAt(plan, meeting.to_min, meeting.depth_cm, length)).toBeLessThan(1);
    expect(meeting.before_M).toBeCloseTo(9, 1);
    const before = bandAt(plan, 'Co', frameAtTime(plan, meeting.from_min), length);
    const after = bandAt(plan, 'Co', frameAtTime(plan, meeting.to_min), length);
    expect(before?.middle_cm).toBeLessThan(meeting.depth_cm + 0.3);
    expect(after?.middle_cm ?? length).toBeGreaterThan(meeting.depth_cm + 1);
  });

  test('finds none for nickel, which no acid holds', () => {
    expect(frontMeeting(plan, 'Ni', length, distributionOf(scenario, 'Ni'))).toBeUndefined();
  });

  test('finds none while nothing is poured', () => {
    expect(frontMeeting(new Planner(scenario).plan([]), 'Co', length, distributionOf(scenario, 'Co'))).toBeUndefined();
  });
});

test('bandAt gives the edges that the model measures', () => {
  const run = runOf(scenario, scenario.procedure);
  advance(run, { time_min: LOADED_MIN });
  const frame = frameAtTime(plan, run.bed.scalar[AT.time]);
  const band = bandAt(plan, 'Co', frame, length);
  const measured = bandOf(run.bed, run.column, 'Co');
  expect(band?.middle_cm).toBeCloseTo(measured?.centroid_cm ?? Number.NaN, 1);
  expect(band?.leading_cm).toBeCloseTo(measured?.leading_cm ?? Number.NaN, 1);
  expect(band?.share).toBeCloseTo(1, 2);
});
