// Contour lines of a grid by marching squares (Lorensen and Cline, SIGGRAPH 1987, in two dimensions, recalled), joined into
// whole lines so that dashes run on along them.

/** Values of a grid, row after row within each column: value of column i, row j at i * rows + j. */
export interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly values: ArrayLike<number>;
}

/** Points of one line as column, row, column, row ... in grid units. */
export type ContourLine = readonly number[];

export function contourLines(grid: Grid, level: number): ContourLine[] {
  const next = new Int32Array(2 * grid.columns * grid.rows).fill(NONE);
  const entered = new Uint8Array(next.length);
  for (let i = 0; i + 1 < grid.columns; i++) {
    for (let j = 0; j + 1 < grid.rows; j++) crossCell(grid, level, i, j, next, entered);
  }
  const lines: ContourLine[] = [];
  for (let edge = 0; edge < next.length; edge++) if (next[edge] !== NONE && !entered[edge]) lines.push(follow(grid, level, next, edge));
  for (let edge = 0; edge < next.length; edge++) if (next[edge] !== NONE) lines.push(follow(grid, level, next, edge));
  return lines;
}

const NONE = -1;

/**
 * Steps through a cell by the corners that are at or above the level (bits: 1 left top, 2 right top, 4 right bottom, 8 left
 * bottom), as pairs of sides from which and to which: 0 top, 1 right, 2 bottom, 3 left. The high corner stays on one hand.
 */
const STEPS: readonly (readonly number[])[] = [
  [],
  [3, 0],
  [0, 1],
  [3, 1],
  [1, 2],
  [3, 0, 1, 2],
  [0, 2],
  [3, 2],
  [2, 3],
  [2, 0],
  [0, 1, 2, 3],
  [2, 1],
  [1, 3],
  [1, 0],
  [0, 3],
  [],
];

function crossCell({ rows, values }: Grid, level: number, i: number, j: number, next: Int32Array, entered: Uint8Array): void {
  const at = i * rows + j;
  const corners =
    (values[at] >= level ? 1 : 0) | (values[at + rows] >= level ? 2 : 0) | (values[at + rows + 1] >= level ? 4 : 0) | (values[at + 1] >= level ? 8 : 0);
  const steps = STEPS[corners];
  for (let s = 0; s < steps.length; s += 2) {
    const to = edgeOf(at, rows, steps[s + 1]);
    next[edgeOf(at, rows, steps[s])] = to;
    entered[to] = 1;
  }
}

/** Number of a side of the cell at `at`: even for the side that runs along the columns, odd for the one along the rows. */
function edgeOf(at: number, rows: number, side: number): number {
  if (side === 0) return 2 * at;
  if (side === 1) return 2 * (at + rows) + 1;
  return side === 2 ? 2 * (at + 1) : 2 * at + 1;
}

function follow(grid: Grid, level: number, next: Int32Array, start: number): number[] {
  const line: number[] = [];
  let edge = start;
  while (edge !== NONE) {
    pushCrossing(line, grid, level, edge);
    const ahead = next[edge];
    next[edge] = NONE;
    edge = ahead;
  }
  return line;
}

function pushCrossing(line: number[], { rows, values }: Grid, level: number, edge: number): void {
  const at = edge >> 1;
  const along = (edge & 1) === 1;
  const from = values[at];
  const share = (level - from) / (values[along ? at + 1 : at + rows] - from);
  line.push(Math.floor(at / rows) + (along ? 0 : share), (at % rows) + (along ? share : 0));
}
