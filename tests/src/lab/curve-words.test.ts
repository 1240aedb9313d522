import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readScenario } from '../../../sim/input/scenario.ts';
import { drawnWords, takenWords, typedWords } from '../../../src/lab/curves/curve-words.ts';
import { readRows } from '../../../src/ui/text/curve-table.ts';

test('a typed row is told with its number, what belongs there and what stands there', () => {
  expect(readRows('4;1,2\nsix;8\n9\n14;3\n10;-1', 'plain').issues.map(typedWords)).toEqual([
    'Row 2, HCl: expected a number from 0 to 13 mol/L, found “six”.',
    'Row 3: expected two numbers, HCl in mol/L and Dᵥ, found “9”.',
    'Row 4, HCl: expected a number from 0 to 13 mol/L, found “14”.',
    'Row 5, Dᵥ: expected a number from 0 to 1000000000, found “-1”.',
  ]);
});

test('logarithms, and a molarity that stands there twice, are told in their columns', () => {
  expect(readRows('4 ten\n9 1.5\n9 1.6', 'log').issues.map(typedWords)).toEqual([
    'Row 1, log Dᵥ: expected a number up to 9, found “ten”.',
    'Row 3, HCl: expected each molarity once, found “9 mol/L again”.',
  ]);
});

test('the drawing says how many points it cannot show', () => {
  expect(drawnWords(0, 0)).toBe('the built-in curve');
  expect(drawnWords(4, 1)).toBe('the built-in curve (dotted) and 3 points of your own (squares); 1 more lies outside the drawing');
});

test('too short a table says what it needs and has', () => {
  expect(readRows('4 1', 'plain').issues.map(typedWords)).toEqual(['The table needs 2 to 200 lines with two numbers; it has 1.']);
});

test('a curve of the lab is told by metal, row and column', () => {
  const read = readScenario(
    {
      ...(JSON.parse(readFileSync('scenarios/cathode-leach.json', 'utf8')) as object),
      curves: {
        Co: [
          [9, 35],
          [4, 1.2],
        ],
      },
    },
    'lab',
  );
  expect(read.ok ? [] : read.issues.map(takenWords)).toEqual([
    'Own curve of cobalt(II), row 2, HCl: expected more than the row before (9 mol/L), found 4 mol/L.',
  ]);
});
