import { readFileSync } from 'node:fs';
import { wilson } from '../tests/bench/wilson.ts';

// Prints what the last run of `npm run mutants` found: killed mutants of each room and file with the interval of a sample, and
// the survivors. `npm run -s mutants-table`, or with the address of another report.

interface Mutant {
  readonly status: string;
  readonly mutatorName: string;
  readonly replacement: string;
  readonly location: { readonly start: { readonly line: number } };
}

type Report = { readonly files: Readonly<Record<string, { readonly mutants: readonly Mutant[] }>> };

const KILLED = ['Killed', 'Timeout'];
const ALIVE = ['Survived', 'NoCoverage'];

const address = process.argv[2] ?? '.cache/mutants.json';
// Written by the mutation tester in its documented form.
const { files } = JSON.parse(readFileSync(address, 'utf8')) as Report;
const tried = Object.entries(files).flatMap(([path, { mutants }]) =>
  mutants.filter(({ status }) => [...KILLED, ...ALIVE].includes(status)).map((one) => ({ path, ...one })),
);
const rooms = [...new Set(tried.map(({ path }) => path.slice(0, path.lastIndexOf('/'))))];

const survivors = tried.filter(({ status }) => ALIVE.includes(status));
const lines = [
  '| room or file | tried | killed | 95 % of a sample |',
  '| --- | --- | --- | --- |',
  ...[...rooms, ...new Set(tried.map(({ path }) => path))].map(rowOf),
  '',
  'Survivors:',
  ...survivors.map(({ path, location, mutatorName, replacement }) => `${path}:${location.start.line} ${mutatorName}: ${replacement.slice(0, 80)}`),
];
process.stdout.write(`${lines.join('\n')}\n`);

function rowOf(place: string): string {
  const here = tried.filter(({ path }) => path.startsWith(place));
  const killed = here.filter(({ status }) => KILLED.includes(status)).length;
  const [low, high] = wilson(killed, here.length).map((share) => Math.round(100 * share));
  return `| \`${place}\` | ${here.length} | ${((100 * killed) / here.length).toFixed(0)} % | ${low} to ${high} % |`;
}
