import type { Issue } from '../../../sim/terms/types.ts';
import { parseNumber } from './number-text.ts';

// A user's table of D_v as text: two numbers per line, HCl in mol/L and D_v, in the way spreadsheets write and copy them.

export type TablePoints = readonly (readonly [HCl_M: number, D_v: number])[];

export type TableReading = { readonly ok: true; readonly points: TablePoints } | { readonly ok: false; readonly issues: readonly Issue[] };

/** `log`: the second number is log10 of D_v. */
export type Scale = 'plain' | 'log';

const POINTS_MIN = 2;
const POINTS_MAX = 200;
const ACID_MAX = 13;
const D_MAX = 1e9;

/** Reads all lines and sorts them by molarity, or reports everything that is wrong, by line and column. The first line may be a heading. */
export function readTable(text: string, scale: Scale): TableReading {
  const { points, issues } = readRows(text, scale);
  return issues.length > 0 ? { ok: false, issues } : { ok: true, points };
}

/** The lines that can be read, and everything that is wrong with the others or with the table as a whole. */
export function readRows(text: string, scale: Scale): { readonly points: TablePoints; readonly issues: readonly Issue[] } {
  const lines = text.split(/\r\n|\r|\n/).map((line, i) => ({ line: line.trim(), path: `line ${i + 1}` }));
  const filled = lines.filter(({ line }) => line !== '' && !line.startsWith('#'));
  const rows = filled.filter(({ line }, i) => i > 0 || /^[\d.,+\-\u2212]/.test(line));
  const issues: Issue[] = [];
  const points = rows.flatMap(({ line, path }) => pointOf(line, path, scale, issues)).sort((a, b) => a.HCl_M - b.HCl_M);
  for (let i = 1; i < points.length; i++) {
    if (points[i].HCl_M === points[i - 1].HCl_M)
      issues.push({ path: `${points[i].path}, HCl`, expected: 'each molarity once', received: `${points[i].HCl_M} mol/L again` });
  }
  if (issues.length === 0 && (points.length < POINTS_MIN || points.length > POINTS_MAX)) {
    issues.push({ path: 'table', expected: `${POINTS_MIN} to ${POINTS_MAX} lines with two numbers`, received: `${points.length}` });
  }
  return { points: distinct(points).map(({ HCl_M, D_v }) => [HCl_M, D_v]), issues };
}

function distinct(points: readonly Row[]): Row[] {
  return points.filter(({ HCl_M }, i) => i === 0 || HCl_M !== points[i - 1].HCl_M);
}

interface Row {
  readonly HCl_M: number;
  readonly D_v: number;
  readonly path: string;
}

function pointOf(line: string, path: string, scale: Scale, issues: Issue[]): Row[] {
  const cells = cellsOf(line);
  if (cells.length !== 2) {
    issues.push({ path, expected: 'two numbers, HCl in mol/L and D_v', received: line.slice(0, 60) });
    return [];
  }
  const [HCl_M, second] = cells.map(parseNumber);
  const D_v = second !== undefined && scale === 'log' ? 10 ** second : second;
  const found = issues.length;
  if (HCl_M === undefined || HCl_M < 0 || HCl_M > ACID_MAX)
    issues.push({ path: `${path}, HCl`, expected: `a number from 0 to ${ACID_MAX} mol/L`, received: cells[0] });
  if (D_v === undefined || D_v < 0 || D_v > D_MAX)
    issues.push(
      scale === 'log'
        ? { path: `${path}, log D_v`, expected: `a number up to ${Math.log10(D_MAX)}`, received: cells[1] }
        : { path: `${path}, D_v`, expected: `a number from 0 to ${D_MAX}`, received: cells[1] },
    );
  return found === issues.length && HCl_M !== undefined && D_v !== undefined ? [{ HCl_M, D_v, path }] : [];
}

/**
 * Semicolons or tabs separate the cells if there are any; otherwise white space; otherwise one comma, the only one in the line: in
 * `9,0,35,1` nobody can tell a decimal comma from one that separates numbers.
 */
function cellsOf(line: string): string[] {
  if (/[;\t]/.test(line)) return line.split(/\s*[;\t]\s*/).filter((cell) => cell !== '');
  const spaced = line.split(/\s+/).filter((cell) => cell !== ',');
  if (spaced.length > 1) return spaced.map((cell, i) => (i === 0 ? cell.replace(/,$/, '') : cell));
  return line.split(',');
}
