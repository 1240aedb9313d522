import { describe, expect, test } from 'vitest';
import { readTable } from '../../../src/ui/text/curve-table.ts';

const POINTS = [
  [4, 1.2],
  [6, 8.3],
  [9, 35],
];

describe('readTable', () => {
  // RFC 4180 comma-separated, the semicolon with decimal comma that spreadsheets write in most of Europe, tab as copied from a sheet.
  test.each([
    ['commas and points', '4,1.2\n6,8.3\n9,35'],
    ['semicolons and decimal commas', '4;1,2\r\n6;8,3\r\n9;35\r\n'],
    ['tabs', '4\t1.2\n6\t8,3\n9\t35'],
    ['blanks', '4 1.2\n6   8,3\n9 35'],
    ['comma and blank', '4, 1.2\n6, 8.3\n9, 35'],
    ['a heading', 'HCl (mol/L);D\n4;1,2\n6;8,3\n9;35'],
    ['a remark and empty lines', '# from a paper\n\n4 1.2\n\n6 8.3\n9 35\n'],
    ['any order', '9 35\n4 1.2\n6 8.3'],
  ])('reads %s', (_, text) => {
    expect(readTable(text, 'plain')).toEqual({ ok: true, points: POINTS });
  });

  test('takes logarithms where they are said to be', () => {
    expect(readTable('6; 1,0\n9; 2', 'log')).toEqual({
      ok: true,
      points: [
        [6, 10],
        [9, 100],
      ],
    });
  });

  test('names every faulty line by its number, and the column where one of two is at fault', () => {
    const read = readTable('HCl;D\n4;1,2\nsix;8\n9\n14;3\n10;-1', 'plain');
    expect(read.ok ? [] : read.issues.map(({ path }) => path)).toEqual(['line 3, HCl', 'line 4', 'line 5, HCl', 'line 6, D_v']);
  });

  test('refuses decimal commas parted by commas, which nobody can read', () => {
    const read = readTable('9,0,35,1\n4,0,1,2', 'plain');
    expect(read.ok ? [] : read.issues).toEqual([
      { path: 'line 1', expected: 'two numbers, HCl in mol/L and D_v', received: '9,0,35,1' },
      { path: 'line 2', expected: 'two numbers, HCl in mol/L and D_v', received: '4,0,1,2' },
    ]);
  });

  test('refuses a molarity given twice, a single point, and nothing', () => {
    expect(readTable('4 1\n4 2', 'plain').ok).toBe(false);
    expect(readTable('4 1', 'plain').ok).toBe(false);
    expect(readTable('', 'plain').ok).toBe(false);
  });
});
