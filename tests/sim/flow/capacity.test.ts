import { expect, it } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { ledgerError } from '../../../sim/column/ledger.ts';
import { advance, runOf } from '../../../sim/run/run.ts';
import type { IonId } from '../../../sim/terms/ions.ts';
import { caseOf, clamp, pour, until } from '../run/case.ts';

// A resin takes up no more than its charge (definition of exchange capacity), however strong the sample and however few the cells.

it.each<{ ions: IonId[]; plates: number; lanes: number }>([
  { ions: ['Ni', 'Zn'], plates: 4, lanes: 1 },
  { ions: ['Co', 'Fe2'], plates: 10, lanes: 5 },
  { ions: ['Fe3', 'Zn'], plates: 38, lanes: 3 },
  { ions: ['Fe3', 'Ni'], plates: 40, lanes: 2 },
])('the beads hold at most their charge of $ions.0 and $ions.1 from 3 mol/L of each, in $plates cells', ({ ions, plates, lanes }) => {
  const strong = { label: 'sample', HCl_M: 12.5, ions: Object.fromEntries(ions.map((ion) => [ion, 3])) };
  const scenario = caseOf({ 'bed.plates': plates, 'bed.lanes': lanes }, { ions, liquids: { ...caseOf().liquids, sample: strong } });
  const run = runOf(scenario, [clamp(100), pour('sample', 3, { how: 'bed' }), until({ liquid_mm: 1 }), pour('acid', 3), until({ liquid_mm: 1 })]);
  let most = 0;
  while (!advance(run, { endOfLog: true, steps: 1 })) most = Math.max(most, ...run.bed.taken);
  expect(run.bed.scalar[AT.poured]).toBeGreaterThan(5);
  expect(most).toBeLessThan(1 + 1e-6);
  // Loaded to the last place, so that the bound is met.
  expect(most).toBeGreaterThan(0.9);
  expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
});
