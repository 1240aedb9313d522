import type { KeptResult } from '../../sim/report/index.ts';
import { meanOf } from '../../sim/statistics/index.ts';
import { columnName } from '../ui/text/column-name.ts';
import type { Cell, Column, Row } from '../ui/text/csv.ts';
import { fixed, millilitres, significant } from '../ui/text/format.ts';

// The kept aliquots as rows of a table. Acid and alkali are those of the whole eluate, whatever part of it was titrated.

export const KEPT_COLUMNS: readonly Column[] = [
  { key: 'aliquot', label: 'aliquot' },
  { key: 'found', label: 'sample', unit: 'mol/L', show: (value) => fixed(value, 4) },
  { key: 'own', label: 'your figure', unit: 'mol/L', show: (value) => fixed(value, 4) },
  { key: 'recovered', label: 'cobalt recovered', unit: '%', show: (value) => fixed(value, 2) },
  { key: 'carried', label: 'nickel carried', unit: '%', show: (value) => significant(value, 2) },
  { key: 'acid', label: 'acid in the whole eluate', unit: 'mmol', show: (value) => fixed(value, 1) },
  { key: 'expected', label: 'alkali expected for the whole eluate', unit: 'mL', show: (value) => fixed(value, 2) },
  { key: 'NaOH', label: 'alkali used, for the whole eluate', unit: 'mL', show: (value) => fixed(value, 2) },
  { key: 'titres', label: 'titres, mL' },
];
/** Share of an unwanted ion below which it counts as none. */
const TRACE = 1e-5;

export function keptRow(one: KeptResult, i: number): Row {
  return {
    aliquot: `${i + 1} (${one.receiver}, ${columnName(one.seed)})`,
    recovered: one.recovered * 100,
    carried: one.carried < TRACE ? 0 : one.carried * 100,
    acid: one.acid_mmol,
    ...(one.expected_mL === null ? {} : { expected: alkali(one, one.expected_mL, 'as it was asked') }),
    NaOH: alkali(one, one.NaOH_mL, 'in one titration'),
    titres: one.titres_mL.map((mL) => fixed(mL, 2)).join('; '),
    found: meanOf(one.found_M),
    ...(one.own_M === null ? {} : { own: one.own_M }),
  };
}

/** An earlier result does not tell which part of the eluate its alkali was for: it is not set beside the others as a number. */
function alkali({ alkali_for }: KeptResult, mL: number, meant: string): Cell {
  return alkali_for === 'eluate' ? mL : `${millilitres(mL, 2)} ${meant}`;
}
