import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { scheduleOf, type Task } from '../../../sim/class/schedule.ts';
import { timetableOf } from '../../../sim/class/timetable.ts';

const COLUMN = { condition_min: 10, load_min: 1, wash_min: 15, strip_min: 20 };
const task = (id: string, duration_min: number, after: string[] = [], apparatus?: string): Task => ({ id, label: id, duration_min, after, apparatus });

describe('schedule', () => {
  it('of a chain is its sum, and of free tasks their longest, with people enough', () => {
    expect(scheduleOf([task('a', 3), task('b', 4, ['a']), task('c', 5, ['b'])], 3).length_min).toBe(12);
    expect(scheduleOf([task('a', 3), task('b', 4), task('c', 5)], 3).length_min).toBe(5);
  });

  it('of free tasks is their sum for one person', () => {
    expect(scheduleOf([task('a', 3), task('b', 4), task('c', 5)], 1).length_min).toBe(12);
  });

  it('has the critical path of a small network (by hand: a c d, 3 + 6 + 2)', () => {
    const { length_min, critical } = scheduleOf([task('a', 3), task('b', 4, ['a']), task('c', 6, ['a']), task('d', 2, ['b', 'c'])], 3);
    expect(length_min).toBe(11);
    expect(critical).toEqual(['a', 'c', 'd']);
  });

  // Critical-path priority, any textbook of operations research; by hand. The chain a b takes 10 min and has to start first: c and
  // d then fit beside it. Begun with c and d, two people would need 15 min.
  it('begins with the longest way still to go', () => {
    const { length_min, tasks } = scheduleOf([task('c', 5), task('d', 5), task('a', 1), task('b', 9, ['a'])], 2);
    expect(length_min).toBe(10);
    expect(tasks.find(({ id }) => id === 'a')?.start_min).toBe(0);
  });

  it('leaves out tasks that wait for one another in a circle', () => {
    expect(scheduleOf([task('a', 1, ['b']), task('b', 1, ['a'])], 2).tasks).toEqual([]);
  });

  it('never asks for more people, shares no apparatus and starts nothing early', () => {
    const network = fc.array(
      fc.record({ min: fc.integer({ min: 0, max: 20 }), before: fc.integer({ min: 0, max: 9 }), tool: fc.constantFrom(undefined, 'x', 'y') }),
      { minLength: 1, maxLength: 12 },
    );
    fc.assert(
      fc.property(network, fc.integer({ min: 1, max: 4 }), (items, people) => {
        const tasks = items.map(({ min, before, tool }, i) => task(String(i), min, before < i ? [String(before)] : [], tool));
        const { tasks: placed, length_min } = scheduleOf(tasks, people);
        expect(placed).toHaveLength(tasks.length);
        expect(length_min).toBeLessThanOrEqual(tasks.reduce((sum, { duration_min }) => sum + duration_min, 0));
        for (const one of placed) {
          const meanwhile = placed.filter((other) => other !== one && other.start_min <= one.start_min && one.start_min < other.end_min);
          const others = one.duration_min > 0 ? meanwhile : [];
          expect(others.length).toBeLessThan(people);
          expect(others.some(({ person }) => person === one.person)).toBe(false);
          if (one.apparatus) expect(others.some(({ apparatus }) => apparatus === one.apparatus)).toBe(false);
          for (const id of one.after) expect(placed.find((other) => other.id === id)?.end_min).toBeLessThanOrEqual(one.start_min);
        }
      }),
      { seed: 61 },
    );
  });
});

describe('timetable of three people, one column, three aliquots', () => {
  const table = timetableOf({ column: COLUMN, period_min: 170 });

  it('is as long as the column, then the bench for the last aliquot and the cleaning', () => {
    // 10 + 3 (10 + 1 + 15 + 20) on the column, then 4 + 9 + 3 + 8 on the bench and 12 to clean up.
    expect(table.length_min).toBe(10 + 3 * 46 + 24 + 12);
    expect(table.critical[0]).toBe('column 1');
    expect(table.critical).toContain('release 3');
    expect(table.tasks.map(({ label }) => label)).toContain('release aliquot 3');
    expect(table.critical[table.critical.length - 1]).toBe('clean up');
  });

  it('does not fit 170 min and says what would', () => {
    expect(table.fits).toBe(false);
    expect(table.slack_min).toBe(-14);
    expect(table.changes.find(({ text }) => text.includes('second column'))).toMatchObject({ fits: true });
    for (const { length_min, saves_min } of table.changes) expect(length_min + saves_min).toBe(table.length_min);
  });

  it('runs the bench of one aliquot while the next is on the column', () => {
    const at = (id: string) => table.tasks.find((one) => one.id === id);
    expect(at('titrate 1')?.end_min).toBeLessThan(at('release 2')?.end_min ?? 0);
  });
});

test('two columns of two aliquots run side by side', () => {
  const { tasks } = timetableOf({ column: COLUMN, period_min: 170, columns: 2, aliquots: 2 });
  const starts = tasks.filter(({ id }) => id.startsWith('condition')).map(({ start_min }) => start_min);
  expect(new Set(starts).size).toBe(1);
});
