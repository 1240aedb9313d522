import fc from 'fast-check';
import { expect, test } from 'vitest';
import { contourLines, type Grid } from '../../../src/figure/streaks/contour.ts';

const SEED = { seed: 20_261_125, numRuns: 200 };

test('contourLines(cone) is one closed circle', () => {
  const grid = gridOf(41, 41, (i, j) => 30 - Math.hypot(i - 20, j - 20));
  const lines = contourLines(grid, 30 - 12.3);
  expect(lines).toHaveLength(1);
  const line = lines[0] ?? [];
  // A chord of a grid of unit cells leaves a circle of this radius by less than 1/(8 r).
  for (let p = 0; p < line.length; p += 2) expect(Math.hypot((line[p] ?? 0) - 20, (line[p + 1] ?? 0) - 20)).toBeCloseTo(12.3, 1);
  // Points of a closed line go round: its length is that of the circle within 1 %.
  expect(lengthOf([...line, line[0] ?? 0, line[1] ?? 0]) / (2 * Math.PI * 12.3)).toBeCloseTo(1, 2);
});

test('contourLines(slope) is one straight line from side to side', () => {
  const lines = contourLines(
    gridOf(20, 10, (i, j) => i + 0.5 * j),
    8,
  );
  expect(lines).toHaveLength(1);
  const line = lines[0] ?? [];
  for (let p = 0; p < line.length; p += 2) expect((line[p] ?? 0) + 0.5 * (line[p + 1] ?? 0)).toBeCloseTo(8, 9);
});

test('contourLines(flat) has no lines', () => {
  expect(
    contourLines(
      gridOf(5, 5, () => 1),
      1,
    ),
  ).toEqual([]);
  expect(
    contourLines(
      gridOf(5, 5, () => 1),
      2,
    ),
  ).toEqual([]);
});

test('every point of a contour has the level, between its two neighbours in the grid', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 2, max: 9 }),
      fc.integer({ min: 2, max: 9 }),
      fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 81, maxLength: 81 }),
      fc.double({ min: 0.05, max: 0.95, noNaN: true }),
      (columns, rows, values, level) => {
        const grid = { columns, rows, values };
        for (const line of contourLines(grid, level)) {
          for (let p = 0; p < line.length; p += 2) expect(between(grid, line[p] ?? 0, line[p + 1] ?? 0)).toBeCloseTo(level, 6);
        }
      },
    ),
    SEED,
  );
});

function gridOf(columns: number, rows: number, value: (i: number, j: number) => number): Grid {
  return { columns, rows, values: Array.from({ length: columns * rows }, (_, at) => value(Math.floor(at / rows), at % rows)) };
}

/** Linear interpolation; a crossing always lies on a line of the grid. */
function between({ rows, columns, values }: Grid, i: number, j: number): number {
  const [i0, j0] = [Math.floor(i), Math.floor(j)];
  const [i1, j1] = [Math.min(columns - 1, i0 + 1), Math.min(rows - 1, j0 + 1)];
  const at = (column: number, row: number): number => values[column * rows + row] ?? Number.NaN;
  const upper = at(i0, j0) + (i - i0) * (at(i1, j0) - at(i0, j0));
  const lower = at(i0, j1) + (i - i0) * (at(i1, j1) - at(i0, j1));
  return upper + (j - j0) * (lower - upper);
}

function lengthOf(line: readonly number[]): number {
  let length = 0;
  for (let p = 2; p < line.length; p += 2) length += Math.hypot((line[p] ?? 0) - (line[p - 2] ?? 0), (line[p + 1] ?? 0) - (line[p - 1] ?? 0));
  return length;
}
