import { describe, expect, test } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { act, advance, checkpointOf, cutLog, restoreTo, runOf, runWhole } from '../../../sim/run/run.ts';
import type { Action, Log } from '../../../sim/terms/types.ts';
import { caseOf, clamp, pour, until } from './case.ts';

// When an action of the log is taken, and what ends a wait.

const bed = caseOf({ 'bench.start_head_mm': 20 });
const OPEN: Log = [clamp(100), pour('water', 4)];
const at = (log: Log): readonly [time_min: number, delivered_mL: number][] =>
  runWhole(bed, log).events.flatMap(({ entry, time_min, delivered_mL }) => (entry < 0 ? [] : [[time_min, delivered_mL] as const]));
const notes = (log: Log): string[] => runWhole(bed, log).events.flatMap(({ note }) => note ?? []);

describe('an action is taken', () => {
  test('at its minute, not before and not after', () => {
    expect(at([...OPEN, { ...clamp(50), at_min: 0.75 }])[2][0]).toBe(0.75);
  });

  test('at its volume, not before and not after', () => {
    expect(at([...OPEN, { ...clamp(50), at_mL: 0.75 }])[2][1]).toBe(0.75);
  });

  test('at once when its minute or volume is past', () => {
    const [, , third, fourth] = at([...OPEN, until({ delivered_mL: 1 }), { ...clamp(50), at_mL: 0.5 }]);
    expect(fourth).toEqual(third);
    const [, , one, two] = at([...OPEN, until({ time_min: 1 }), { ...clamp(50), at_min: 0.5 }]);
    expect(two).toEqual(one);
  });

  test('at once and with a note when its volume can no longer come', () => {
    const log: Log = [...OPEN, clamp(0), { ...clamp(50), at_mL: 3 }];
    expect(at(log)[3]).toEqual([0, 0]);
    expect(notes(log)).toEqual(['wait ended: the clamp is shut; waited for 3 mL delivered']);
  });

  test('and refused at once when it is unsound, whenever it was to be: what follows it goes on', () => {
    const unsound = { do: 'pour', liquid: 'tea', volume_mL: 1, at_mL: 3 } as Action;
    const { events } = runWhole(bed, [...OPEN, unsound, clamp(50)]);
    expect(events.map(({ refused, time_min }) => [refused?.path, time_min])).toEqual([
      [undefined, 0],
      [undefined, 0],
      ['liquid', 0],
      [undefined, 0],
    ]);
  });
});

describe('a wait', () => {
  test('counts its minutes and millilitres from its own beginning', () => {
    const [, , first, second] = at([...OPEN, until({ elapsed_min: 0.5 }), until({ elapsed_min: 0.25 })]);
    expect([first[0], second[0]]).toEqual([0.5, 0.75]);
    const [, , one, two] = at([...OPEN, until({ more_mL: 0.5 }), until({ more_mL: 0.25 })]);
    expect([one[1], two[1]]).toEqual([0.5, 0.75]);
  });

  test('for a total counts from the start of the run', () => {
    const [, , first, second] = at([...OPEN, until({ time_min: 0.5 }), until({ time_min: 0.75 })]);
    expect([first[0], second[0]]).toEqual([0.5, 0.75]);
    const [, , one, two] = at([...OPEN, until({ delivered_mL: 0.5 }), until({ delivered_mL: 0.75 })]);
    expect([one[1], two[1]]).toEqual([0.5, 0.75]);
  });

  const waits = [
    [until({ delivered_mL: 3 }), '3 mL delivered'],
    [until({ more_mL: 2 }), '2 mL more'],
    [until({ liquid_mm: 4 }), 'liquid 4 mm above the bed'],
    [until({ ion: 'Co', edge: 'leading', depth_cm: 3 }), 'Co leading edge at 3 cm'],
  ] as const;

  test.each(waits)('that only flow can end gives up when nothing flows, and says what for: %j', (wait, words) => {
    expect(notes([...OPEN, clamp(0), wait])).toEqual([`wait ended: the clamp is shut; waited for ${words}`]);
    expect(at([...OPEN, clamp(0), wait])[3]).toEqual([0, 0]);
  });

  test('says so when it is the liquid that has run out', () => {
    const held = caseOf({ 'bed.bead_um': 60, 'column.outlet_cm': 0 });
    const { events } = runWhole(held, [clamp(100), until({ delivered_mL: 50 })]);
    expect(events.some(({ note }) => note === 'wait ended: the liquid is at the bed top; waited for 50 mL delivered')).toBe(true);
  });

  test('for minutes ends by the clock, with the clamp shut too', () => {
    expect(at([...OPEN, clamp(0), until({ elapsed_min: 7 }), until({ time_min: 9 })]).map(([time]) => time)).toEqual([0, 0, 0, 7, 9]);
  });

  test('for a level below which the liquid already is ends at once', () => {
    expect(at([clamp(100), until({ liquid_mm: 30 })])[1]).toEqual([0, 0]);
  });

  test('that has begun is forgotten with the log: the next one begins anew', () => {
    const run = runOf(bed, [...OPEN, until({ elapsed_min: 2 })]);
    advance(run, { time_min: 1 });
    const now = run.bed.scalar[AT.time];
    cutLog(run);
    expect(run.log).toHaveLength(2);
    run.log.push(until({ elapsed_min: 2 }));
    advance(run, { endOfLog: true });
    expect(run.bed.scalar[AT.time]).toBeCloseTo(now + 2, 12);
  });
});

describe('a run', () => {
  test('remembers when something was last done to it', () => {
    const run = runOf(bed, [...OPEN, until({ elapsed_min: 0.5 }), until({ elapsed_min: 5 })]);
    advance(run, { time_min: 3 });
    expect(run.bed.scalar[AT.changed]).toBe(0.5);
  });

  test('acts at the present time: what the log had ahead is gone, what it did stays', () => {
    const run = runOf(bed, [...OPEN, until({ elapsed_min: 2 }), clamp(30)]);
    advance(run, { time_min: 1 });
    const now = run.bed.scalar[AT.time];
    expect(act(run, clamp(0))).toMatchObject({ entry: 2, time_min: now });
    expect(run.log).toEqual([...OPEN, { ...clamp(0), at_min: now }]);
    expect(run.bed.scalar[AT.clampOpen]).toBe(0);
  });

  test('goes to a time and says whether its log is used up', () => {
    const run = runOf(bed, [...OPEN, until({ elapsed_min: 2 })]);
    expect(advance(run, { time_min: 1 })).toBe(false);
    expect(run.bed.scalar[AT.time]).toBeGreaterThanOrEqual(1);
    expect(run.bed.scalar[AT.time]).toBeLessThan(1.5);
    expect(advance(run, { time_min: 3 })).toBe(true);
    expect(run.bed.scalar[AT.time]).toBeGreaterThanOrEqual(3);
    const { [AT.time]: end } = run.bed.scalar;
    expect(advance(run, {})).toBe(true);
    expect(run.bed.scalar[AT.time]).toBe(end);
  });

  test('does as many steps as it is asked for', () => {
    const run = runOf(bed, [...OPEN, until({ more_mL: 3 })]);
    advance(run, { endOfLog: true, steps: 3 });
    expect(run.bed.scalar[AT.steps]).toBe(3);
    advance(run, { endOfLog: true, steps: 0 });
    expect(run.bed.scalar[AT.steps]).toBe(3);
  });

  test('goes back to a checkpoint with its frames and events', () => {
    const run = runOf(bed, [...OPEN, until({ more_mL: 1 }), clamp(0), until({ elapsed_min: 1 })]);
    advance(run, { time_min: 0.3 });
    const point = checkpointOf(run);
    const [frames, events] = [run.record.count, run.events.length];
    advance(run, { endOfLog: true });
    expect(run.events.length).toBeGreaterThan(events);
    expect(run.record.count).toBeGreaterThan(frames);
    restoreTo(run, point);
    expect([run.record.count, run.events.length]).toEqual([frames, events]);
    expect(new Uint8Array(run.bed.buffer)).toEqual(new Uint8Array(point.state));
  });
});
