import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';

it('does not fit with readings of the band before the sample: all are listed with row, expected and given, and the exit code is 2', () => {
  const folder = mkdtempSync(join(tmpdir(), 'bandfall-'));
  const table = join(folder, 'readings.csv');
  // The lesson pours its sample when 26 mL have been delivered: 25 mL of acid and what stood above the bed.
  writeFileSync(table, 'delivered_mL,flow_mL_per_min,leading_cm,first_colour_mL\n12,1.8,1.9,\n38,,2.8,\n,,,20\n');
  const done = spawnSync(
    process.execPath,
    ['--import', 'tsx', 'src/headless/rehearse.ts', 'scenarios/cathode-leach.json', '--calibrate', table, '--date', '2031-05-04'],
    { encoding: 'utf8', timeout: 120_000 },
  );
  rmSync(folder, { recursive: true });
  const expected = 'expected a reading of the band after the sample, which this procedure pours at about 26 mL from the start of the run';
  expect(done.stderr).toBe(`row 2, leading_cm: ${expected}; received one at 12 mL\nrow 4, first_colour_mL: ${expected}; received one at 20 mL\n`);
  expect(done.stdout).toBe('');
  expect(done.status).toBe(2);
});
