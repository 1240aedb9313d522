import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readScenario } from '../../../sim/input/scenario.ts';
import { takenWords, typedWords } from '../../../src/lab/curves/curve-words.ts';
import { readRows } from '../../../src/ui/text/curve-table.ts';

test('a typed row is told with its number, what belongs there and what stands there', () => {
  expect(readRows('4;1,2\nsix;8\n9\n14;3\n10;-1', 'plain').issues.map(typedWords)).toEqual([
    'Row 2: expected HCl from 0 to 13 mol/L, found “six”.',
    'Row 3: expected two numbers, HCl in mol/L and Dᵥ, found “9”.',
    'Row 4: expected HCl from 0 to 13 mol/L, found “14”.',
    'Row 5: expected Dᵥ from 0 to 1000000000, found “-1”.',
  ]);
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
