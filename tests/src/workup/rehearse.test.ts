import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';

const ROOT = join(import.meta.dirname, '..', '..', '..');

function rehearse(...options: readonly string[]) {
  return spawnSync(process.execPath, ['--import', 'tsx', 'src/headless/rehearse.ts', 'scenarios/cathode-leach.json', ...options], {
    cwd: ROOT,
    encoding: 'utf8',
  });
}

describe('the runner with --workup', () => {
  test('gives the run and what its richest receiver comes to', () => {
    const { stdout, status } = rehearse('--workup', '--json', '--set', 'bed.plates=30', '--set', 'bed.lanes=3');
    expect(status).toBe(0);
    const { workup, receivers } = JSON.parse(stdout) as {
      workup: { receiver: { label: string }; titrations: unknown[]; cobalt: { found_M: number } };
      receivers: unknown[];
    };
    expect(receivers).toHaveLength(2);
    expect(workup.receiver.label).toBe('cobalt');
    expect(workup.titrations).toHaveLength(3);
    expect(Math.abs(workup.cobalt.found_M / 0.18 - 1)).toBeLessThan(0.03);
  });

  test('lists every option that stands alone, and ends with 2', () => {
    const { stderr, status } = rehearse('--receiver', 'cobalt', '--steps', 'steps.json');
    expect(stderr.trim().split('\n')).toEqual([
      '--receiver: expected --workup with it; received no --workup',
      '--steps: expected --workup with it; received no --workup',
    ]);
    expect(status).toBe(2);
  });

  test('names the receivers there are when another is asked for', () => {
    const { stderr, status } = rehearse('--workup', '--receiver', 'gold', '--set', 'bed.plates=30', '--set', 'bed.lanes=3');
    expect(stderr.trim()).toBe('receiver: expected one of nickel, cobalt; received gold');
    expect(status).toBe(2);
  });
});
