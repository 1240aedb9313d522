// What no single value of a scenario shows: a tube shorter than its bed, a liquid with an ion that is not listed.
// Takes any JSON; a value that is wrong by itself has its own issue and is left out here.
import { cellsFor } from '../terms/cells.ts';
import { FIELDS, type FieldPath } from '../terms/fields.ts';
import { gradeNumber } from '../terms/grades.ts';
import { addIssue, clip, describe, isRecord, oneOf, own, under } from './told.ts';
import type { Issue } from '../terms/types.ts';

/** Cells times components of a run: plates x lanes x (HCl and the ions). Twice the longest column that is shipped. */
export const CELLS_MAX = 20_000;
/** Share of the bed that liquid can fill, between and inside the beads; the matrix needs the rest. Assumed. */
const LIQUID_SHARE_MAX = 0.95;

/** Adds an issue for everything that does not fit together. */
export function checkScenario(json: Readonly<Record<string, unknown>>, issues: Issue[]): void {
  checkTube(json, issues);
  checkBed(json, issues);
  checkIons(json, issues);
  checkCurves(own(json, 'curves'), issues);
  checkFaults(own(json, 'faults'), issues);
}

/** A parameter as the file gives it, else by its grade of resin, else by default; undefined if the value is not allowed. */
export function plausible(json: unknown, path: FieldPath): number | undefined {
  const [group = '', name = ''] = path.split('.');
  const field: { min: number; max: number; default: number; integer?: true } = FIELDS[path];
  const given = own(own(json, group), name);
  if (given === undefined) return defaultOf(json, path);
  if (typeof given !== 'number' || !(given >= field.min && given <= field.max)) return undefined;
  return field.integer && !Number.isInteger(given) ? undefined : given;
}

/** What a parameter is when the file leaves it out. */
function defaultOf(json: unknown, path: FieldPath): number | undefined {
  if (path !== 'bed.plates') return gradeNumber(own(own(json, 'resin'), 'grade'), path) ?? FIELDS[path].default;
  const [length, bead, packing] = [plausible(json, 'bed.length_cm'), plausible(json, 'bed.bead_um'), plausible(json, 'bed.packing')];
  return length === undefined || bead === undefined || packing === undefined ? undefined : cellsFor(length, bead, packing);
}

function checkTube(json: unknown, issues: Issue[]): void {
  const length = plausible(json, 'bed.length_cm');
  const tube = plausible(json, 'column.tube_cm');
  const head = plausible(json, 'bench.start_head_mm');
  if (length === undefined || tube === undefined) return;
  if (length >= tube) addIssue(issues, 'bed.length_cm', `below column.tube_cm (${tube} cm), the tube must be taller than the bed`, `${length} cm`);
  else if (head !== undefined && length + head / 10 > tube) {
    addIssue(issues, 'bench.start_head_mm', `at most column.tube_cm - bed.length_cm (${tidy(10 * (tube - length))} mm)`, `${head} mm`);
  }
}

function checkBed(json: Readonly<Record<string, unknown>>, issues: Issue[]): void {
  const porosity = plausible(json, 'bed.porosity');
  const resin = plausible(json, 'resin.pore_L_per_L');
  if (porosity !== undefined && resin !== undefined && porosity + resin > LIQUID_SHARE_MAX) {
    addIssue(issues, 'bed.porosity', `with resin.pore_L_per_L at most ${LIQUID_SHARE_MAX} of the bed`, `${porosity} + ${resin}`);
  }
  const plates = plausible(json, 'bed.plates');
  const lanes = plausible(json, 'bed.lanes');
  const ions = own(json, 'ions');
  if (plates === undefined || lanes === undefined || !Array.isArray(ions)) return;
  const cells = plates * lanes * (1 + ions.length);
  if (cells > CELLS_MAX)
    addIssue(issues, 'bed.plates', `bed.plates x bed.lanes x (1 + ions) at most ${CELLS_MAX}`, `${plates} x ${lanes} x ${1 + ions.length} = ${cells}`);
}

/** Ions named once, and carried by liquids and curves only if listed. */
function checkIons(json: Readonly<Record<string, unknown>>, issues: Issue[]): void {
  const listed = own(json, 'ions');
  if (!Array.isArray(listed)) return;
  const ions = listed.map(String).slice(0, 20);
  ions.forEach((ion, i) => {
    if (ions.indexOf(ion) < i) addIssue(issues, `ions[${i}]`, 'each ion once', `${clip(ion)} again`);
  });
  const liquids = own(json, 'liquids');
  const carriers = isRecord(liquids) ? Object.keys(liquids).map((name) => [`${under('liquids', name)}.ions`, own(own(liquids, name), 'ions')] as const) : [];
  for (const [path, carried] of [...carriers.slice(0, 20), ['curves', own(json, 'curves')] as const]) {
    for (const ion of isRecord(carried) ? Object.keys(carried).slice(0, 20) : []) {
      if (!ions.includes(ion)) addIssue(issues, under(path, ion), oneOf('an ion listed under ions', ions, ''), describe(ion));
    }
  }
}

/** Each kind of fault once: a second one of the same kind would have no clear meaning. */
function checkFaults(faults: unknown, issues: Issue[]): void {
  const kinds = Array.isArray(faults) ? faults.slice(0, 20).map((fault: unknown) => own(fault, 'kind')) : [];
  kinds.forEach((kind, i) => {
    if (typeof kind === 'string' && kinds.indexOf(kind) < i) addIssue(issues, `faults[${i}].kind`, 'each kind of fault once', `${clip(kind)} again`);
  });
}

function checkCurves(curves: unknown, issues: Issue[]): void {
  for (const ion of isRecord(curves) ? Object.keys(curves).slice(0, 20) : []) {
    const rows = own(curves, ion);
    const acids: unknown[] = Array.isArray(rows) ? rows.slice(0, 200).map((row: unknown) => (Array.isArray(row) ? row[0] : undefined)) : [];
    acids.forEach((acid, i) => {
      const before = acids[i - 1];
      if (typeof acid !== 'number' || typeof before !== 'number' || acid > before) return;
      addIssue(issues, `${under('curves', ion)}[${i}][0]`, `more than the row before (${before} mol/L)`, `${acid} mol/L`);
    });
  }
}

/** Without the tail of binary fractions. */
function tidy(value: number): number {
  return Number(value.toPrecision(6));
}
