import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { parseScenario } from '../../sim/input/scenario.ts';
import { type Aliquot, aliquotOf } from './day.ts';

// How far columns differ: npm run -s spread -- [--columns 200] [--lanes 5]. The facts of a class's day beside what the model gives, as a table.

const { values } = parseArgs({ options: { columns: { type: 'string', default: '200' }, lanes: { type: 'string', default: '5' } } });
const [columns, lanes] = [whole(values.columns, 'columns', 10_000), whole(values.lanes, 'lanes', 25)];
const read = parseScenario(readFileSync(new URL('../../scenarios/cathode-leach.json', import.meta.url), 'utf8'), 'cathode-leach');
if (!read.ok) throw new Error(`scenarios/cathode-leach.json: expected a sound scenario, received ${read.issues.length} issues`);
const { scenario } = read;
const found = Array.from({ length: columns }, (_, i) => aliquotOf({ ...scenario, seed: i + 1, values: { ...scenario.values, 'bed.lanes': lanes } }));

const share = (is: (aliquot: Aliquot) => boolean): string => `${((100 * found.filter(is).length) / columns).toFixed(0)} % of columns`;
const rows: readonly (readonly [string, string, string])[] = [
  ['drips fast at 1 mm of acid, drops/min', '25 to 60', spread((a) => a.drops_min, 0)],
  ['the same, mL/min', '1.3 to 3, published procedures (read)', spread((a) => a.flow_mL_min, 2)],
  ['bed in acid, poured as about 7 cm of it in water, cm', 'about 7', spread((a) => a.inAcid_cm, 1)],
  ['leading edge after 20 mL of acid, cm', 'near the bottom in some', spread((a) => a.edge20_cm, 1)],
  ['near the bottom within 20 mL', 'some columns', share((a) => a.near_mL <= 20)],
  ['leading edge after 40 mL of acid, cm', 'hardly moved in some', spread((a) => a.edge40_cm, 1)],
  ['above half of the bed after 40 mL', 'some columns', share((a) => a.edge40_cm < a.inAcid_cm / 2)],
  ['acid until the edge is near the bottom, mL', 'at most 40', spread((a) => a.near_mL, 0)],
  ['cobalt lost by then, %', 'none noticed', spread((a) => a.lostNear_percent, 2)],
  ['cobalt lost if all 40 mL are poured, %', 'stop before', spread((a) => a.lost40_percent, 1)],
  ['water for 50 % of the cobalt, mL', 'moves a lot, quickly', spread((a) => a.water50_mL, 1)],
  ['water for 95 %, mL', 'within 10', spread((a) => a.water95_mL, 1)],
  ['water for 99 %, mL', 'less than 30', spread((a) => a.water99_mL, 1)],
  ['one aliquot, column only, min', 'three in 4 h', spread((a) => a.time_min, 0)],
];
const lines = [
  ['a class sees', 'fact (common practice, no source)', `${columns} columns, ${lanes} lane${lanes === 1 ? '' : 's'}: median (least to most)`],
  ['---', '---', '---'],
  ...rows,
];
process.stdout.write(`${lines.map((cells) => `| ${cells.join(' | ')} |`).join('\n')}\n`);

function spread(of: (aliquot: Aliquot) => number, digits: number): string {
  const sorted = found.map(of).sort((a, b) => a - b);
  const at = (q: number): string => sorted[Math.round(q * (sorted.length - 1))].toFixed(digits);
  return `${at(0.5)} (${at(0)} to ${at(1)})`;
}

function whole(text: string, name: string, most: number): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= 1 && value <= most) return value;
  throw new Error(`--${name}: expected a whole number from 1 to ${most}, received ${text}`);
}
