import { spawnSync } from 'node:child_process';
import { expect, test } from 'vitest';

/** One array with a number for each of the 1300 cells has 10.4 kB; what is left are the boxes in which calls hand over single numbers. */
const MOST_BYTES = 3000;

/** Bytes a step leaves on the heap, with so much room for new objects that none is collected in between. */
function bytesAStep(...more: string[]): number {
  const flags = ['--expose-gc', '--min-semi-space-size=64', '--import', 'tsx'];
  const done = spawnSync(process.execPath, [...flags, 'tests/sim/run/allocated.ts', ...more], { encoding: 'utf8', timeout: 110_000 });
  expect(done.stderr).toBe('');
  return Number(done.stdout);
}

test('a step of the bench case makes no array', { timeout: 240_000 }, () => {
  expect(bytesAStep()).toBeLessThan(MOST_BYTES);
  expect(bytesAStep('--waste')).toBeGreaterThan(MOST_BYTES);
});
