import { expect, test } from 'vitest';
import { lessonOf, lessonWords, targetsOf } from '../../../sim/history/index.ts';
import { FIELDS } from '../../../sim/terms/fields.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { endedWords, putTooLate } from '../../../src/bench/debrief/ended.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { lossesOf } from '../../../src/figure/rows/losses.ts';
import { shipped, small } from '../store/rig.ts';

const SCENARIO = small();
const TARGETS = targetsOf(SCENARIO);
const ended = (log: Log) => endedWords(new Planner(SCENARIO).plan(log), TARGETS);

test('a run that did what was asked is said to be good, with what its receiver holds', () => {
  const { good, text } = ended(SCENARIO.procedure);
  expect(good).toBe(true);
  expect(text).toMatch(/^“cobalt” holds (99\.\d|100\.0)\s% of the Co²⁺, 0\.\d\s% of the Ni²⁺ and \d+\smmol of acid\.$/);
});

test('a run whose receiver was never changed is not: what the task asks for stands beside it', () => {
  const { good, text } = ended(SCENARIO.procedure.filter((action) => action.do !== 'receiver' || action.label !== 'cobalt'));
  expect(good).toBe(false);
  expect(text).toMatch(/^none of the Co²⁺ was collected; the task asks for 9\d\.\d\s%\.$/);
});

test('a run whose receiver was changed late tells what is missing', () => {
  const at = SCENARIO.procedure.findLastIndex((action) => action.do === 'receiver');
  const late = SCENARIO.procedure.map((action, i) => (i === at - 1 ? ({ do: 'wait', until: { more_mL: 3 } } as const) : action));
  const { good, text } = ended(late);
  expect(good).toBe(false);
  expect(text).toMatch(/^“cobalt” holds \d+\.\d\s% of the Co²⁺, .*; the task asks for 9\d\.\d\s%\.$/);
});

test('a receiver is called too late where the verdict misses what had left before it, and nowhere else', () => {
  const at = SCENARIO.procedure.findLastIndex((action) => action.do === 'receiver');
  const after = (more_mL: number): Log => SCENARIO.procedure.map((action, i) => (i === at - 1 ? ({ do: 'wait', until: { more_mL } } as const) : action));
  // After 20 mL of water no cobalt is left to be collected.
  const poured: Log = [
    ...SCENARIO.procedure.slice(0, at - 1),
    ...SCENARIO.procedure.slice(at + 1, -1),
    ...SCENARIO.procedure.slice(at, at + 1),
    ...SCENARIO.procedure.slice(-1),
  ];
  for (const [log, late] of [
    [SCENARIO.procedure, undefined],
    [after(3), 'cobalt'],
    [poured, 'cobalt'],
  ] as const) {
    const plan = new Planner(SCENARIO).plan(log);
    expect(putTooLate(plan, TARGETS)).toBe(late);
    if (late) expect(endedWords(plan, TARGETS).good).toBe(false);
  }
});

test('of a day its receivers are judged together: each holds the share of its own aliquot only', () => {
  const day = shipped('lab-day', { bed: { lanes: 1 } });
  const targets = targetsOf(day);
  const plan = new Planner(day).plan(day.procedure);
  const { good, text } = endedWords(plan, targets);
  const found = text.match(/^“cobalt 1”, “cobalt 2”, “cobalt 3” together hold (\d+\.\d+)\s% of the Co²⁺ and (\d\.\d+)\s% of the Ni²⁺/);
  // What the runner says of the same day: three receivers of 0.18 mmol each, less what left before (receivers of the results).
  const { receivers, loaded } = plan.results;
  const held = receivers.filter(({ label }) => label.startsWith('cobalt')).reduce((sum, { Co_mmol }) => sum + Number(Co_mmol ?? 0), 0);
  expect(Number(found?.[1])).toBeCloseTo((100 * held) / (loaded.Co_mmol ?? Number.NaN), 0);
  expect(good).toBe(held / (loaded.Co_mmol ?? Number.NaN) >= targets.recovered);
  expect(putTooLate(plan, targets)).toBeUndefined();
  expect(lossesOf({ plan }, targets)).toEqual([]);
  const lesson = lessonOf(plan, targets, 60);
  expect(lessonWords(lesson, targets)).toMatch(/^The receivers “cobalt 1”, “cobalt 2”, “cobalt 3” together hold \d+\.\d+\s% of the cobalt\(II\) with/);
  // The day changes the receiver with the water, and its own task allows the acid that this costs.
  expect(good).toBe(true);
  expect(lessonWords(lesson, targets)).not.toContain('allows');
  // Half a bed volume, the usual limit, does not, and is named where it is missed.
  const usual = targetsOf({ ...day, values: { ...day.values, 'task.acid_bed_volumes': FIELDS['task.acid_bed_volumes'].default } });
  expect(lessonWords(lessonOf(plan, usual, 60), usual)).toMatch(/more than 2\d\.\d\smmol of acid\. The task .*allows \d+\smmol of acid in each\.$/);
});
