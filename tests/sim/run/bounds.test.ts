import { describe, expect, it } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { RUN_MAX_MIN } from '../../../sim/terms/limits.ts';
import { WORK_MAX, workOf } from '../../../sim/run/bounds.ts';
import { advance, advanceAlive, runOf, runWhole } from '../../../sim/run/run.ts';
import { caseOf, clamp, pour, until } from './case.ts';

// Nothing runs for ever: a run has a longest time, a budget of work and few steps where nothing happens.

describe('a run', () => {
  it('steps over a long rest in few steps, and a rest in two halves is the same rest', () => {
    const run = runWhole(caseOf(), [clamp(100), pour('acid', 2), until({ more_mL: 1 }), clamp(0), until({ elapsed_min: 5000 })]);
    const busy = runWhole(caseOf(), [clamp(100), pour('acid', 2), until({ more_mL: 1 })]).bed.scalar[AT.steps];
    expect(run.bed.scalar[AT.time]).toBeGreaterThan(5000);
    expect(run.bed.scalar[AT.steps] - busy).toBeLessThan(300);
  });

  it('comes to the same state after a rest in long steps as in steps of 0.1 min', () => {
    const start = [clamp(100), pour('sample', 0.5), pour('acid', 1), until({ more_mL: 1 }), clamp(0)];
    const whole = runWhole(caseOf({ 'bed.lanes': 1 }), [...start, until({ elapsed_min: 60 })]);
    const often = runWhole(caseOf({ 'bed.lanes': 1 }), [...start, ...Array.from({ length: 400 }, () => until({ elapsed_min: 0.15 }))]);
    const most = Math.max(...whole.bed.sorbed);
    whole.bed.sorbed.forEach((value, at) => {
      expect(Math.abs(value - often.bed.sorbed[at])).toBeLessThan(1e-3 * most);
    });
  });

  it('ends at its longest time when the clamp lets next to nothing through, and says so', () => {
    const run = runWhole(caseOf(), [clamp(0.1), pour('acid', 2), until({ liquid_mm: 1 })]);
    expect(run.bed.scalar[AT.time]).toBeGreaterThanOrEqual(RUN_MAX_MIN);
    expect(run.bed.scalar[AT.steps]).toBeLessThan(2000);
    expect(run.events.at(-1)?.note).toMatch(/^run ended: 10000 min is the longest run/);
  });

  it('ends when its budget of work is spent, and says what asks for so much', () => {
    const run = runOf(caseOf({ 'numerics.courant': 0.02, 'bed.plates': 800, 'bed.lanes': 8 }), [clamp(100), pour('acid', 5), until({ more_mL: 4 })]);
    advance(run, { endOfLog: true, steps: 3 });
    run.bed.scalar[AT.work] = WORK_MAX;
    expect(advance(run, { endOfLog: true })).toBe(true);
    expect(run.events.at(-1)?.note).toMatch(/^run ended: it asks for more computing .*bed\.plates.*numerics\.courant/);
    expect(advance(run, { time_min: 9000 })).toBe(true);
  });

  it('counts the work of its steps, each a little and all its cells', () => {
    const run = runOf(caseOf(), [clamp(100), pour('acid', 2), until({ more_mL: 1 })]);
    advance(run, { endOfLog: true, steps: 3 });
    expect(run.bed.scalar[AT.work]).toBe(3 * workOf(run.bed));
    expect(workOf(run.bed)).toBeGreaterThan(4 * 30 * run.bed.components);
  });

  it('in short stretches stops at a time that was asked for, though the log is not at its end', () => {
    const run = runOf(caseOf(), [clamp(100), pour('acid', 2), until({ more_mL: 1000 })]);
    let calls = 0;
    advanceAlive(run, { time_min: 3 }, () => {
      if (++calls > 1000) throw new Error('runs for ever');
    });
    expect(calls).toBeGreaterThan(0);
    expect(run.bed.scalar[AT.time]).toBeGreaterThanOrEqual(3);
    expect(run.bed.scalar[AT.time]).toBeLessThan(4);
  });

  it('keeps few frames however close they are asked for', () => {
    const run = runWhole(caseOf({ 'numerics.frame_mL': 0.005, 'numerics.courant': 0.2, 'bed.lanes': 1, 'bed.plates': 400, 'column.bore_cm': 3 }), [
      clamp(100),
      pour('acid', 80),
      until({ more_mL: 75 }),
    ]);
    expect(run.record.count).toBeLessThan(7000);
    expect(run.record.count).toBeGreaterThan(3000);
  });
});
