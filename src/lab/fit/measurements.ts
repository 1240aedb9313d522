import { addIssue, oneOf } from '../../../sim/input/index.ts';
import type { FlowTest } from '../../../sim/run/index.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import type { IonId, Issue, Scenario } from '../../../sim/terms/types.ts';
import { flowTestIn, TEST_PLACES } from './flow-test.ts';

// What a lab measured on one run, as a table: one row for each reading, one column for each quantity, with the unit in its name.

/** What can be measured. `at_mL` is the volume delivered since the start of the run; `from_mL` where a fraction was begun. */
export type Quantity = 'flow test' | 'flow' | 'bed' | 'leading' | 'trailing' | 'first colour' | 'last colour' | 'fraction' | 'alkali';

export interface Measurement {
  readonly row: number;
  readonly column: string;
  readonly quantity: Quantity;
  readonly at_mL: number;
  readonly from_mL: number;
  /** In a fraction: the solute that was measured, mmol. */
  readonly solute?: IonId | 'HCl';
  /** In a flow test, whose minutes were measured before the run. */
  readonly test?: FlowTest;
  readonly value: number;
  /** One standard deviation of it. */
  readonly deviation: number;
}

export type MeasurementsResult =
  | { readonly ok: true; readonly measurements: readonly Measurement[] }
  | { readonly ok: false; readonly issues: readonly Issue[] };

export interface Meaning {
  readonly quantity: Quantity;
  readonly solute?: IonId | 'HCl';
  /** How it is measured, for a reader. */
  readonly how: string;
  readonly unit: string;
  readonly most: number;
  /** Deviation: this much, and this share of the value. Common practice for ruler, cylinder and watch, no source. */
  readonly absolute: number;
  readonly relative: number;
}

const PLACES = ['delivered_mL', 'from_mL', ...TEST_PLACES] as const;
const ROWS_MAX = 500;
const VOLUME_MOST = 10_000;
/** Longest flow test, min. A choice. */
const TEST_MOST = 1000;

/** Columns for this scenario. */
export function columnsFor({ ions, values }: Scenario): Readonly<Record<string, Meaning>> {
  const ruler = { unit: 'cm', most: values['column.tube_cm'], absolute: 0.1, relative: 0 };
  const colour = { unit: 'mL', most: VOLUME_MOST, relative: 0 };
  const amounts = ions.map((ion): [string, Meaning] => [
    `${ion}_mmol`,
    { quantity: 'fraction', solute: ion, how: `${IONS[ion].name} in a fraction`, unit: 'mmol', most: 1000, absolute: 0.001, relative: 0.01 },
  ]);
  return {
    flow_mL_per_min: { quantity: 'flow', how: 'drops per minute times the volume of a drop', unit: 'mL/min', most: 100, absolute: 0.01, relative: 0.03 },
    bed_cm: { quantity: 'bed', how: 'length of the bed', ...ruler, absolute: 0.05 },
    leading_cm: { quantity: 'leading', how: 'lower edge of the coloured band, below the bed top as it stands then', ...ruler },
    trailing_cm: { quantity: 'trailing', how: 'upper edge of the coloured band, below the bed top as it stands then', ...ruler },
    first_colour_mL: { quantity: 'first colour', how: 'volume delivered when drops begin to be coloured', ...colour, absolute: 0.2 },
    last_colour_mL: { quantity: 'last colour', how: 'volume delivered when drops stop being coloured', ...colour, absolute: 0.5 },
    ...Object.fromEntries(amounts),
    HCl_mmol: { quantity: 'fraction', solute: 'HCl', how: 'acid in a fraction', unit: 'mmol', most: 10_000, absolute: 0.1, relative: 0.01 },
    NaOH_mL: { quantity: 'alkali', how: 'sodium hydroxide that neutralised a fraction', unit: 'mL', most: VOLUME_MOST, absolute: 0.05, relative: 0.005 },
    flow_test_min: {
      quantity: 'flow test',
      how: 'time in which flow_test_mL ran out before the run, clamp open',
      unit: 'min',
      most: TEST_MOST,
      absolute: 0.05,
      relative: 0.03,
    },
  };
}

/** Reads the whole table, or reports everything that is wrong with it. Cells are separated by commas, semicolons or tabs; decimals have a point. */
export function readMeasurements(text: string, scenario: Scenario): MeasurementsResult {
  const issues: Issue[] = [];
  const [head, ...rows] = rowsOf(text);
  const columns = columnsFor(scenario);
  const names = head?.cells ?? [];
  checkHead(names, columns, issues);
  if (rows.length === 0 || rows.length > ROWS_MAX) addIssue(issues, 'table', `1 to ${ROWS_MAX} rows under the heading`, `${rows.length}`);
  if (issues.length > 0) return { ok: false, issues };
  const measurements = rows.flatMap(({ cells, row }) => measuredIn(cells, row, names, scenario, issues));
  checkEdges(measurements, issues);
  return issues.length > 0 ? { ok: false, issues } : { ok: true, measurements };
}

/** Lines that hold anything, each with its number in the table as it was given. */
function rowsOf(text: string): { readonly row: number; readonly cells: readonly string[] }[] {
  const lines = text
    .replace(/^\ufeff/, '')
    .split(/\r\n|\r|\n/)
    .map((line, i) => ({ row: i + 1, line }))
    .filter(({ line }) => line.trim() !== '');
  const parting = ['\t', ';', ','].find((sign) => lines[0]?.line.includes(sign)) ?? ',';
  return lines.map(({ row, line }) => ({ row, cells: line.split(parting).map((cell) => cell.trim().replace(/^"(.*)"$/, '$1')) }));
}

function checkHead(names: readonly string[], columns: Readonly<Record<string, Meaning>>, issues: Issue[]): void {
  const known = [...PLACES, ...Object.keys(columns)];
  for (const [i, name] of names.entries()) {
    if (!known.includes(name)) addIssue(issues, `heading, column ${i + 1}`, oneOf('a column with its unit', known, name), `"${name}"`);
    else if (names.indexOf(name) !== i) addIssue(issues, `heading, column ${i + 1}`, 'every column once', `"${name}" again`);
  }
  if (names.length > 0 && !names.some((name) => Object.hasOwn(columns, name)))
    addIssue(issues, 'heading', `at least one of ${Object.keys(columns).join(', ')}`, 'none');
}

/** Readings of one row, counted as a spreadsheet does: the heading is row 1. */
function measuredIn(cells: readonly string[], row: number, names: readonly string[], scenario: Scenario, issues: Issue[]): Measurement[] {
  const columns = columnsFor(scenario);
  if (cells.length > names.length) addIssue(issues, `row ${row}`, `at most ${names.length} cells`, `${cells.length}; decimals have a point`);
  const cell = (name: string): string => cells[names.indexOf(name)] ?? '';
  const filled = names.filter((name) => Object.hasOwn(columns, name) && cell(name) !== '');
  const untimed = TEST_PLACES.filter((name) => cell(name) !== '');
  if (filled.length === 0)
    addIssue(issues, `row ${row}`, 'at least one measured value', untimed.length > 0 ? `only ${untimed.join(', ')}` : 'only empty cells');
  const place = (name: string, why: string): number =>
    cell(name) === '' ? missing(`row ${row}, ${name}`, why, issues) : read(cell(name), `row ${row}, ${name}`, 'mL', VOLUME_MOST, issues);
  return filled.map((column): Measurement => {
    const { quantity, solute, unit, most, absolute, relative } = columns[column];
    const own = quantity === 'first colour' || quantity === 'last colour';
    const fraction = quantity === 'fraction' || quantity === 'alkali';
    const value = read(cell(column), `row ${row}, ${column}`, unit, most, issues);
    const deviation = Math.hypot(absolute, relative * value);
    if (quantity === 'flow test') return { row, column, quantity, at_mL: 0, from_mL: 0, test: testIn(cell, row, scenario, issues), value, deviation };
    const at_mL = own ? value : place('delivered_mL', `the volume delivered when ${column} was read`);
    const from_mL = fraction ? place('from_mL', `the volume at which the fraction with ${column} began`) : 0;
    if (fraction && from_mL >= at_mL) addIssue(issues, `row ${row}, from_mL`, `less than delivered_mL, ${at_mL} mL`, `${from_mL} mL`);
    return { row, column, quantity, at_mL, from_mL, ...(solute && { solute }), value, deviation };
  });
}

/** Beside the minutes of a flow test: how much ran out, and how high the liquid stood. */
function testIn(cell: (name: string) => string, row: number, scenario: Scenario, issues: Issue[]): FlowTest {
  const highest_mm = 10 * (scenario.values['column.tube_cm'] - scenario.values['bed.length_cm']);
  const place = (name: (typeof TEST_PLACES)[number]): number => {
    const path = `row ${row}, ${name}`;
    if (cell(name) === '') return missing(path, 'what ran out in flow_test_min, and how high the liquid stood above the bed', issues);
    return name === 'flow_test_mL' ? read(cell(name), path, 'mL', VOLUME_MOST, issues) : read(cell(name), path, 'mm', highest_mm, issues);
  };
  return flowTestIn(place, cell('flow_test_end_mm') !== '', row, scenario, issues);
}

function read(cell: string, path: string, unit: string, most: number, issues: Issue[]): number {
  const value = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(cell) ? Number(cell) : Number.NaN;
  if (!(value >= 0 && value <= most)) addIssue(issues, path, `number 0 to ${most} ${unit}`, `"${cell}"`);
  return value;
}

function missing(path: string, expected: string, issues: Issue[]): number {
  addIssue(issues, path, expected, 'an empty cell');
  return Number.NaN;
}

function checkEdges(measurements: readonly Measurement[], issues: Issue[]): void {
  for (const trailing of measurements.filter(({ quantity }) => quantity === 'trailing')) {
    const leading = measurements.find(({ row, quantity }) => row === trailing.row && quantity === 'leading');
    if (leading && leading.value <= trailing.value)
      addIssue(
        issues,
        `row ${trailing.row}, trailing_cm`,
        `less than leading_cm, ${leading.value} cm: depths are counted from the bed top`,
        `${trailing.value} cm`,
      );
  }
}
