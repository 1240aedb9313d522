// Prints the bytes that steps of a run leave on the heap, a step, once everything is compiled: for allocation.test.ts.
import { readFileSync } from 'node:fs';
import { parseScenario } from '../../../sim/input/scenario.ts';
import { advance, runOf, runWhole } from '../../../sim/run/index.ts';

const STEPS = 300;
const read = parseScenario(readFileSync(new URL('../../bench/case.json', import.meta.url), 'utf8'), 'case');
if (!read.ok) throw new Error('case: expected a sound scenario');
const { scenario } = read;
for (let i = 0; i < 3; i++) runWhole(scenario);
const run = runOf(scenario);
// `--waste` makes each step as wasteful as one array a lane, so that the test can see that it would notice.
const waste = process.argv.includes('--waste');
const kept: number[][] = [];
advance(run, { endOfLog: true, steps: 400 });
globalThis.gc?.();
const before = process.memoryUsage().heapUsed;
for (let i = 0; i < STEPS; i++) {
  advance(run, { endOfLog: true, steps: 1 });
  if (waste) kept[0] = Array.from({ length: 13 * 100 }, () => i + 0.5);
}
process.stdout.write(`${(process.memoryUsage().heapUsed - before) / STEPS}\n`);
