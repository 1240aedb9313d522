import { IONS, type IonId } from '../../../sim/terms/ions.ts';
import type { Issue } from '../../../sim/terms/types.ts';
import { capital } from '../../../sim/terms/capital.ts';

// What is wrong with an own curve, as one would say it: where, what belongs there, what stands there.

/** Columns of the table, in its order. */
const CELLS = ['HCl', 'Dᵥ'] as const;

/** Of the text being typed: "Row 3, HCl: expected a number from 0 to 13 mol/L, found “six”." */
export function typedWords({ path, expected, received }: Issue): string {
  if (path === 'table') return `The table needs ${expected}; it has ${received}.`;
  return `${capital(signed(path.replace('line', 'row')))}: expected ${signed(expected)}, found “${received}”.`;
}

/** What the drawing shows, and how many points it cannot. */
export function drawnWords(points: number, outside: number): string {
  if (points === 0) return 'the built-in curve';
  const shown = `the built-in curve (dotted) and ${points - outside} ${points - outside === 1 ? 'point' : 'points'} of your own (squares)`;
  return outside === 0 ? shown : `${shown}; ${outside} more ${outside === 1 ? 'lies' : 'lie'} outside the drawing`;
}

/** Of a curve in the lab: its place is named by metal, row and column instead of by its path in the file. */
export function takenWords({ path, expected, received }: Issue): string {
  return `${placeWords(path)}: expected ${signed(expected)}, found ${received}.`;
}

function placeWords(path: string): string {
  const [, ion = '', row, cell] = /^curves(?:\.([^.[]+))?(?:\[(\d+)\])?(?:\[(\d+)\])?/.exec(path) ?? [];
  const metal = Object.hasOwn(IONS, ion) ? IONS[ion as IonId].name : ion;
  const places = [`Own curve${metal ? ` of ${metal}` : 's'}`, ...(row === undefined ? [] : [`row ${Number(row) + 1}`])];
  const column = cell === undefined ? undefined : CELLS[Number(cell)];
  return [...places, ...(column ? [column] : [])].join(', ');
}

function signed(text: string): string {
  return text.replaceAll('D_v', 'Dᵥ');
}
