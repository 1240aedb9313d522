// Tries random inputs for as long as it is given: npm run campaign -- --minutes 60 --seed 7 --law actions
import { parseArgs } from 'node:util';
import fc from 'fast-check';
import { LAWS, type Law } from './laws.ts';

/** Real time on one law before the next has its turn, ms. */
const TURN_MS = 20_000;

const { values } = parseArgs({ options: { minutes: { type: 'string', default: '5' }, seed: { type: 'string' }, law: { type: 'string' } } });
const minutes = Number(values.minutes);
const first = values.seed === undefined ? Date.now() % 2 ** 31 : Number(values.seed);
const laws = LAWS.filter(({ name }) => values.law === undefined || name === values.law);
if (!(minutes > 0) || !Number.isInteger(first) || laws.length === 0) {
  process.stderr.write(`campaign: expected --minutes above 0, --seed a whole number, --law one of ${LAWS.map(({ name }) => name).join(', ')}\n`);
  process.exit(2);
}

const end = Date.now() + minutes * 60_000;
const tried = new Map<string, number>();
let broken = 0;
process.stdout.write(`campaign of ${minutes} min from seed ${first}\n`);
for (let turn = 0; Date.now() < end; turn++) {
  const law = laws[turn % laws.length];
  if (!(await holds(law, first + turn, Math.min(TURN_MS, end - Date.now())))) broken += 1;
}
for (const [name, cases] of tried) process.stdout.write(`${name}: ${cases} cases\n`);
process.stdout.write(broken === 0 ? 'nothing found\n' : `${broken} turns found something\n`);
process.exitCode = broken === 0 ? 0 : 1;

/** One turn; prints the smallest case that breaks the law, and the seed that leads to it. */
async function holds({ name, property }: Law, seed: number, time: number): Promise<boolean> {
  const run = await fc.check(property(), { seed, numRuns: 1_000_000, interruptAfterTimeLimit: time, markInterruptAsFailure: false, maxSkipsPerRun: 1000 });
  tried.set(name, (tried.get(name) ?? 0) + run.numRuns);
  if (!run.failed) return true;
  const why = run.errorInstance instanceof Error ? run.errorInstance.message : String(run.errorInstance);
  process.stdout.write(`\n${name}, seed ${seed}, path ${run.counterexamplePath}: ${why}\n${JSON.stringify(run.counterexample)}\n\n`);
  return false;
}
