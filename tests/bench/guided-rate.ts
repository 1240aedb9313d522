// How often a run ends well: npm run -s guided -- [--columns 20] [--lanes 1]. The guide followed to the letter, the written procedure, and the
// procedure with its wash ended by the leading edge, each on the columns of seeds 1, 2, 3 ...
import { parseArgs } from 'node:util';
import { readScenario } from '../../sim/input/scenario.ts';
import json from '../../scenarios/cathode-leach.json';
import { aligned } from './aims.ts';
import { guided, written } from './guided.ts';

const { values } = parseArgs({ options: { columns: { type: 'string', default: '20' }, lanes: { type: 'string', default: '1' } } });
const [columns, lanes] = [whole(values.columns, 'columns', 1000), whole(values.lanes, 'lanes', 25)];
/** Leading edge above the bottom at which no more acid is poured, mm; a choice. */
const EDGE_MM = 25;
const read = readScenario({ ...json, bed: { lanes } }, 'cathode-leach');
if (!read.ok) throw new Error(JSON.stringify(read.issues));
const { scenario } = read;
const seeds = Array.from({ length: columns }, (_, i) => i + 1);
const led = [];
for (const seed of seeds) led.push(await guided(scenario, seed));
const rows = [
  ['the guide, followed to the letter', led],
  ['the written procedure', seeds.map((seed) => written(scenario, seed))],
  [`the same, no more wash once the leading edge is ${EDGE_MM} mm above the bottom`, seeds.map((seed) => written(scenario, seed, EDGE_MM))],
] as const;
const percent = (share: number): string => (100 * share).toFixed(1);
process.stdout.write(
  `${aligned([
    [`${columns} columns, lanes: ${lanes}`, 'meet the task', 'least recovered, %', 'most nickel, %', 'seeds that miss'],
    ...rows.map(([name, runs]) => [
      name,
      String(runs.filter(({ good }) => good).length),
      percent(Math.min(...runs.map(({ recovered }) => recovered))),
      percent(Math.max(...runs.map(({ carried }) => carried))),
      runs.flatMap(({ good, seed }) => (good ? [] : [seed])).join(' '),
    ]),
  ])}\n`,
);

function whole(text: string, name: string, most: number): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= 1 && value <= most) return value;
  throw new Error(`--${name}: expected a whole number from 1 to ${most}, received ${text}`);
}
