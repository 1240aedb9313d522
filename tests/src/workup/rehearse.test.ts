import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';

const ROOT = join(import.meta.dirname, '..', '..', '..');

function rehearse(...options: readonly string[]) {
  return rehearsed('cathode-leach', options);
}

function rehearsed(scenario: string, options: readonly string[]) {
  return spawnSync(process.execPath, ['--import', 'tsx', 'src/headless/rehearse.ts', `scenarios/${scenario}.json`, ...options], {
    cwd: ROOT,
    encoding: 'utf8',
  });
}

describe('the runner with --workup', () => {
  test('gives the run and what its richest receiver comes to', () => {
    const { stdout, status } = rehearse('--workup', '--json', '--set', 'bed.plates=30', '--set', 'bed.lanes=3');
    expect(status).toBe(0);
    const { workup, receivers } = JSON.parse(stdout) as {
      workup: { receiver: { label: string }; titrations: unknown[]; interval: { low_M: number; high_M: number }; cobalt: { found_M: number } };
      receivers: unknown[];
    };
    expect(receivers).toHaveLength(2);
    expect(workup.receiver.label).toBe('cobalt');
    expect(workup.titrations).toHaveLength(1);
    expect(workup.interval.low_M).toBeLessThan(workup.cobalt.found_M);
    expect(workup.interval.high_M).toBeGreaterThan(workup.cobalt.found_M);
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

  test('titrates each of the three aliquots of the lab day, loaded by the same pipette with a hand of its own', () => {
    const { stdout, status } = rehearsed('lab-day', ['--workup', '--json', '--set', 'bed.plates=30', '--set', 'bed.lanes=3']);
    expect(status).toBe(0);
    const { workups, molarity, delivered_mL, time_min } = JSON.parse(stdout) as {
      workups: { receiver: { label: string; Co_mmol: number }; sample: { volume_mL: number; nth: number }; interval: { low_M: number; high_M: number } }[];
      molarity: { found_M: number; low_M: number; high_M: number };
      delivered_mL: number;
      time_min: number;
    };
    expect(workups.map(({ receiver }) => receiver.label)).toEqual(['cobalt 1', 'cobalt 2', 'cobalt 3']);
    expect(workups.map(({ sample }) => [sample.volume_mL, sample.nth])).toEqual([
      [1, 0],
      [1, 1],
      [1, 2],
    ]);
    expect(new Set(workups.map(({ receiver }) => receiver.Co_mmol.toFixed(5))).size).toBe(3);
    expect(molarity.high_M - molarity.low_M).toBeGreaterThan(0);
    // Three times 25 + 1 + up to 40 + 30 mL, the wash stopped near the bottom: about 270 to 290 mL in a day of at most 4 h. Common practice, no source.
    expect(delivered_mL).toBeGreaterThan(255);
    expect(delivered_mL).toBeLessThan(290);
    expect(time_min).toBeLessThan(240);
  });
});
