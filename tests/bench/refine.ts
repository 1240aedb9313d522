import { readFileSync } from 'node:fs';
import { parseScenario } from '../../sim/input/scenario.ts';
import type { FieldPath } from '../../sim/terms/fields.ts';
import { aliquotOf } from './day.ts';

// What an aliquot comes to with shorter steps, more cells and more lanes: npm run -s refine. Figures of the default column, one seed.

const read = parseScenario(readFileSync(new URL('../../scenarios/cathode-leach.json', import.meta.url), 'utf8'), 'cathode-leach');
if (!read.ok) throw new Error(`scenarios/cathode-leach.json: expected a sound scenario, received ${read.issues.length} issues`);
const { scenario } = read;
/** Lanes while steps and cells are varied: their effect is that of one lane, seen in fewer minutes. */
const FEW: Partial<Record<FieldPath, number>> = { 'bed.lanes': 5 };
const CASES: readonly (readonly [string, Partial<Record<FieldPath, number>>])[] = [
  ...[2, 1.4, 0.7, 0.35].map((step) => [`steps of ${step} cells`, { ...FEW, 'numerics.courant': step }] as const),
  ...[30, 60, 120, 240].map((cells) => [`${cells} cells`, { ...FEW, 'bed.plates': cells }] as const),
  ...[1, 5, 13, 25].map((lanes) => [`${lanes} lanes`, { 'bed.lanes': lanes }] as const),
];

process.stdout.write('| case | edge after 20 mL, cm | lost with 40 mL, % | water for 50 / 95 / 99 %, mL |\n| --- | --- | --- | --- |\n');
for (const [name, values] of CASES) {
  const { edge20_cm, lost40_percent, water50_mL, water95_mL, water99_mL } = aliquotOf({ ...scenario, values: { ...scenario.values, ...values } });
  const water = [water50_mL, water95_mL, water99_mL].map((mL) => mL.toFixed(2)).join(' / ');
  process.stdout.write(`| ${name} | ${edge20_cm.toFixed(2)} | ${lost40_percent.toFixed(2)} | ${water} |\n`);
}
