import { svg, type SVGTemplateResult } from 'lit';
import { type ContourLine, contourLines, type Grid } from './contour.ts';
import { depthAtFrame, type Drawing } from '../drawing.ts';
import { deliveredAtEnd, frameAt, profileOf } from '../../../sim/history/index.ts';

// The acid in the bed as a grid over delivered volume and depth, and its fronts as contours.

/** Fronts are drawn where the molarity is this share of the highest. */
const FRONT_LEVELS = [0.1, 0.5, 0.9] as const;

export interface AcidGrid {
  readonly grid: Grid;
  /** Delivered volume of each column, mL. */
  readonly volumes: readonly number[];
  /** Plates from one row to the next. */
  readonly plateStep: number;
  /** Highest molarity in the grid, mol/L. */
  readonly most: number;
}

/** px between columns, and at most this many rows: finer is not seen. */
const COLUMN_PX = 4;
const ROWS_MAX = 50;
/** Shorter lines are specks of the grid. */
const POINTS_MIN = 4;

export function acidGridOf({ plan, x }: Drawing): AcidGrid {
  const plateStep = Math.max(1, Math.ceil(plan.plates / ROWS_MAX));
  const rows = Math.max(2, Math.floor(plan.plates / plateStep));
  const end = deliveredAtEnd(plan);
  const columns = Math.max(2, Math.ceil((x(end) - x(0)) / COLUMN_PX) + 1);
  const volumes = Array.from({ length: columns }, (_, i) => (end * i) / (columns - 1));
  const values = new Float32Array(columns * rows);
  let most = 0;
  for (let i = 0; i < columns; i++) {
    const profile = profileOf(plan, 'HCl', frameAt(plan, volumes[i]));
    for (let j = 0; j < rows; j++) {
      const value = profile[j * plateStep];
      values[i * rows + j] = value;
      if (value > most) most = value;
    }
  }
  return { grid: { columns, rows, values }, volumes, plateStep, most: most || 1 };
}

/** The fronts as lines. */
export function acidFronts(drawing: Drawing, acid: AcidGrid): SVGTemplateResult {
  return svg`${FRONT_LEVELS.map((level) => svg`<path class=${level === 0.5 ? 'front half' : 'front'} d=${frontPath(drawing, acid, level)}></path>`)}`;
}

/** Path of the front at a share of the highest molarity. */
function frontPath(drawing: Drawing, acid: AcidGrid, share: number): string {
  return contourLines(acid.grid, share * acid.most)
    .filter((line) => line.length >= 2 * POINTS_MIN)
    .map((line) => path(drawing, acid, line))
    .join('');
}

function path(drawing: Drawing, { volumes, plateStep }: AcidGrid, line: ContourLine): string {
  const { plan, x } = drawing;
  const cell_cm = (plan.length_cm / plan.plates) * plateStep;
  let text = '';
  for (let p = 0; p < line.length; p += 2) {
    const from = Math.floor(line[p]);
    const volume = volumes[from] + (line[p] - from) * ((volumes[from + 1] ?? volumes[from]) - volumes[from]);
    const y = depthAtFrame(drawing, frameAt(plan, volume));
    text += `${p === 0 ? 'M' : 'L'}${x(volume).toFixed(1)} ${y((line[p + 1] + 0.5 / plateStep) * cell_cm).toFixed(1)}`;
  }
  return text;
}

/** Delivered volumes at which the half-height front passes a depth, as a share of the bed, in the order of the run. */
export function frontPassages({ grid, volumes, most }: AcidGrid, depth: number): number[] {
  const row = Math.min(grid.rows - 1, Math.floor(grid.rows * depth));
  const above = (i: number): boolean => grid.values[i * grid.rows + row] >= most / 2;
  return volumes.filter((_, i) => i > 0 && above(i) !== above(i - 1));
}
