import { describe, expect, test } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { advance, type Run, runOf, runWhole } from '../../../sim/run/run.ts';
import type { Action } from '../../../sim/terms/types.ts';
import { closeTo } from '../../exact/asserts.ts';
import { caseOf, clamp, lowest, pour, until } from './case.ts';

// Single steps, against closed forms of what one step may pass and does.

const ONE_LANE = { 'bed.lanes': 1, 'column.tip_plates': 1, 'numerics.frame_mL': 5, 'numerics.step_max_min': 1 } as const;
const COURANT = 1.4;

/** Values over those of one lane whose step nothing limits but its cells. */
function laneOf(values: Parameters<typeof caseOf>[0], log: readonly Action[]): Run {
  return runOf(caseOf({ ...ONE_LANE, 'numerics.courant': COURANT, 'resin.shrinkage': 0, ...values }), [...log, until({ more_mL: 1000 })]);
}

/** mL that the next step passes. */
function passed(run: Run): number {
  const before = run.bed.scalar[AT.delivered];
  advance(run, { steps: 1, endOfLog: true });
  return run.bed.scalar[AT.delivered] - before;
}

describe('a step passes', () => {
  test.each([
    ['weaker', 0],
    ['stronger', 12],
  ])('the stated share of a cell when %s acid stands above a bed at rest', (_, start) => {
    const run = laneOf({ 'bench.start_HCl_M': start, 'bench.start_head_mm': 0 }, [clamp(100), pour('acid', 4)]);
    closeTo('volume', passed(run), COURANT * run.bed.mobile[0], { relative: 1e-9 }, 'mL');
  });

  // The error of a step goes as its square times the difference: sqrt(0.01/difference) cells, judged against c + 0.1 mol/L.
  test.each([9.009, 8.991])('as many cells as a faint difference allows: acid of 9 mol/L above a bed in %d mol/L', (start) => {
    const run = laneOf({ 'bench.start_HCl_M': start, 'bench.start_head_mm': 0 }, [clamp(100), pour('acid', 4)]);
    const cells = COURANT * Math.sqrt((1e-2 * (start + 0.1)) / Math.abs(start - 9));
    closeTo('volume', passed(run), cells * run.bed.mobile[0], { relative: 1e-9 }, 'mL');
  });

  test.each([9.009, 8.991])('the same where it is a reservoir that differs from the liquid above the bed: %d mol/L', (start) => {
    const run = laneOf({ 'bench.start_HCl_M': start, 'bench.start_head_mm': 10 }, [clamp(100), pour('acid', 4, { hold_level: true })]);
    const cells = COURANT * Math.sqrt((1e-2 * (start + 0.1)) / Math.abs(start - 9));
    closeTo('volume', passed(run), cells * run.bed.mobile[0], { relative: 1e-9 }, 'mL');
  });

  test('more than one cell where nothing differs, and one where a metal enters, from the liquid above or from a reservoir', () => {
    const bed = { 'bench.start_HCl_M': 9, 'bench.start_head_mm': 10 };
    const rest = laneOf(bed, [clamp(100), pour('acid', 4)]);
    expect(passed(rest)).toBeGreaterThan(3 * COURANT * rest.bed.mobile[0]);
    for (const hold_level of [false, true]) {
      const run = laneOf(bed, [clamp(100), pour('sample', 4, { hold_level })]);
      closeTo('volume', passed(run), COURANT * run.bed.mobile[0], { relative: 1e-9 }, 'mL');
    }
  });

  test('twice the stated share of a stage of the tip, where those are smaller than the cells', () => {
    const small = { 'bench.start_HCl_M': 9, 'bench.start_head_mm': 10, 'column.tip_mL': 0.02, 'column.tip_plates': 20 };
    const run = laneOf(small, [clamp(100), pour('acid', 4)]);
    closeTo('volume', passed(run), (2 * COURANT * 0.02) / 20, { relative: 1e-9 }, 'mL');
  });

  test('what its smallest cell allows, once cells differ', () => {
    const run = laneOf({ 'bench.start_HCl_M': 0, 'bench.start_head_mm': 0 }, [clamp(100), pour('acid', 4)]);
    advance(run, { steps: 0, endOfLog: true });
    run.bed.scalar[AT.uneven] = 1;
    run.bed.mobile[5] /= 3;
    closeTo('volume', passed(run), COURANT * run.bed.mobile[5], { relative: 1e-9 }, 'mL');
  });
});

describe('a step takes', () => {
  test('a twentieth of the time since the last action while everything stands still, but at least the longest usual step', () => {
    const run = runOf(caseOf({ 'numerics.step_max_min': 0.1 }), [clamp(0), until({ elapsed_min: 500 })]);
    const s = run.bed.scalar;
    let last = 0;
    for (let n = 0; n < 100; n++) {
      advance(run, { steps: 1, endOfLog: true });
      closeTo('step', s[AT.time] - last, Math.max(0.1, 0.05 * last), { relative: 1e-9 }, 'min');
      last = s[AT.time];
    }
    expect(last).toBeGreaterThan(50);
  });

  test('its volume over the flow at the middle of it, which it leaves behind', () => {
    const run = laneOf({ 'bench.start_HCl_M': 0, 'bench.start_head_mm': 0 }, [clamp(100), pour('acid', 4)]);
    const volume = passed(run);
    closeTo('flow', run.bed.scalar[AT.flow], volume / run.bed.scalar[AT.time], { relative: 1e-12 }, 'mL/min');
  });

  test('its turn at mixing after every fourth, and none is owed then', () => {
    const run = laneOf({ 'bench.start_HCl_M': 0, 'bench.start_head_mm': 0 }, [clamp(100), pour('acid', 4)]);
    const s = run.bed.scalar;
    for (let n = 1; n <= 8; n++) {
      const before = s[AT.time];
      const owed = s[AT.mixingDue];
      passed(run);
      closeTo('due', s[AT.mixingDue], n % 4 === 0 ? 0 : owed + s[AT.time] - before, { absolute: 1e-12 }, 'min');
    }
  });
});

test('a rest counts from the last action', () => {
  const run = runOf(caseOf(), [clamp(0), until({ elapsed_min: 20 }), clamp(0), until({ elapsed_min: 500 })]);
  advance(run, { time_min: 20.05 });
  closeTo('first step after it', run.bed.scalar[AT.time] - 20, 0.1, { relative: 1e-9 }, 'min');
});

describe('a step ends', () => {
  test('exactly at the volume, the time or the level that the log waits for', () => {
    const wet = [clamp(100), pour('water', 4)];
    expect(runWhole(caseOf(), [...wet, until({ delivered_mL: 0.7 })]).bed.scalar[AT.delivered]).toBe(0.7);
    expect(runWhole(caseOf(), [...wet, until({ time_min: 0.7 })]).bed.scalar[AT.time]).toBe(0.7);
    const { bed, column } = runWhole(caseOf(), [...wet, until({ liquid_mm: 12 })]);
    closeTo('level', bed.scalar[AT.headVolume] / column.section, 1.2, { absolute: 1e-12 }, 'cm');
  });
});

// The liquid above the bed is stirred: V dc/dt = Q (c_in - c).
describe('liquid above the bed that a reservoir keeps at its level', () => {
  const held = (tall_cm: number, values: Parameters<typeof caseOf>[0]): Run =>
    laneOf({ 'bench.start_HCl_M': 9, 'bench.start_head_mm': 10, 'column.tube_cm': 7 + tall_cm, ...values }, [
      clamp(100),
      pour('water', 4, { hold_level: true }),
    ]);

  test('turns over by the trapezoidal rule in a short step', () => {
    const run = held(3, {});
    const [above, fed] = [run.bed.scalar[AT.headVolume], 4];
    const turn = passed(run) / above;
    expect(turn).toBeLessThan(2);
    closeTo('acid', run.bed.head[0] / above, (9 * (1 - turn / 2)) / (1 + turn / 2), { relative: 1e-12 }, 'mol/L');
    closeTo('reservoir', run.bed.scalar[AT.feedVolume], fed - run.bed.scalar[AT.delivered], { absolute: 1e-12 }, 'mL');
    closeTo('poured', run.bed.scalar[AT.poured], run.bed.scalar[AT.delivered], { absolute: 1e-12 }, 'mL');
  });

  test('turns over by the backward Euler rule where a step replaces it more than twice, and nothing turns negative', () => {
    const run = held(0.2, { 'bed.plates': 4, 'numerics.courant': 2 });
    advance(run, { steps: 0, endOfLog: true });
    const above = run.bed.scalar[AT.headVolume];
    const turn = passed(run) / above;
    expect(turn).toBeGreaterThan(2);
    closeTo('acid', run.bed.head[0] / above, 9 / (1 + turn), { relative: 1e-12 }, 'mol/L');
    expect(lowest(run)).toBe(0);
  });

  test('is used up to the last drop, and no more', () => {
    const run = runWhole(caseOf(), [clamp(100), pour('water', 2, { hold_level: true }), until({ liquid_mm: 0 })]);
    const s = run.bed.scalar;
    expect(s[AT.feedVolume]).toBe(0);
    closeTo('poured', s[AT.poured], 2, { absolute: 1e-12 }, 'mL');
  });
});

test('a film thinner than a nanolitre above the bed is no liquid: the bed top dries', () => {
  const thin = until({ liquid_mm: 1e-9 });
  const { bed } = runWhole(caseOf(), [clamp(100), pour('water', 1), thin, clamp(0), until({ elapsed_min: 60 })]);
  expect(bed.scalar[AT.headVolume]).toBe(0);
  expect(bed.scalar[AT.evaporated]).toBeGreaterThan(0);
});

// One mixed stage of volume V below the bed: V dc/dt = Q (c_in - c), by the trapezoidal rule in equal parts of at most two turns.
test.each([0.4, 0.02])('the dead volume of %d mL below the bed turns over by the trapezoidal rule, and the receiver gets the mean', (tip_mL) => {
  const run = laneOf({ 'bench.start_HCl_M': 9, 'bench.start_head_mm': 10, 'column.tip_mL': tip_mL, 'numerics.courant': 2 }, [clamp(100)]);
  run.bed.tip.fill(0);
  const volume = passed(run);
  const turns = volume / tip_mL;
  const parts = Math.ceil(turns / 2);
  const keeps = (1 - turns / parts / 2) / (1 + turns / parts / 2);
  closeTo('acid in it', run.bed.tip[0], 9 * (1 - keeps ** parts), { relative: 1e-9 }, 'mol/L');
  closeTo('acid received', run.bed.receivers[1], 9 * volume - run.bed.tip[0] * tip_mL, { relative: 1e-9 }, 'mmol');
  closeTo('volume received', run.bed.receivers[0], volume, { relative: 1e-12 }, 'mL');
});
