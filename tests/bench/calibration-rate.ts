// How often the intervals of a calibration hold the truth: npm run -s calibration-rate -- --seeds 200 [--plates 60] [--threads 2]
// [--markdown]. `--markdown` writes the table into DEVELOPERS.md. Columns, noise and so the table are the same on every machine.
import { readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { readScenario } from '../../sim/input/scenario.ts';
import { inThreads } from '../../src/headless/threads.ts';
import json from '../../scenarios/cathode-leach.json';
import { between } from './aims.ts';
import { rateTable, type Recovered } from './recovered.ts';

const SEEDS_MOST = 10_000;
const PLATES_MOST = 400;
const THREADS_MOST = 64;
const MANUAL = new URL('../../DEVELOPERS.md', import.meta.url);

const { values: options } = parseArgs({
  options: {
    seeds: { type: 'string', default: '200' },
    plates: { type: 'string', default: '60' },
    threads: { type: 'string', default: '2' },
    markdown: { type: 'boolean', default: false },
  },
});
const [seeds, plates] = [whole(options.seeds, 'seeds', SEEDS_MOST), whole(options.plates, 'plates', PLATES_MOST)];
const read = readScenario({ ...json, bed: { lanes: 1, plates } }, 'cathode-leach');
if (!read.ok) throw new Error(JSON.stringify(read.issues));
const found = await inThreads<number, Recovered>(
  new URL('recovered-thread.ts', import.meta.url),
  read.scenario,
  Array.from({ length: seeds }, (_, i) => i + 1),
  whole(options.threads, 'threads', THREADS_MOST),
);
const table = `${seeds} columns drawn from the prior of every fitted number (cathode leach, one lane of ${plates} cells), each measured with 15 readings of the stated noise:\n\n${rateTable(found)}`;
process.stdout.write(`${table}\n`);
if (options.markdown) writeFileSync(MANUAL, between(readFileSync(MANUAL, 'utf8'), 'calibration', table));

function whole(text: string, name: string, most: number): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= 1 && value <= most) return value;
  throw new Error(`--${name}: expected a whole number from 1 to ${most}, received ${text}`);
}
