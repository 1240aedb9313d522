import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { handedInText } from '../../../sim/handed/index.ts';
import { readScenario } from '../../../sim/input/scenario.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { runWhole } from '../../../sim/run/run.ts';
import json from '../../../scenarios/theory-one-lane.json';

it('takes in all files that are named, sound ones and others, and ends with code 2 and a list', () => {
  const read = readScenario(json, 'theory-one-lane');
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const { time_min, delivered_mL, receivers } = resultsOf(runWhole(read.scenario));
  const claimed = { time_min, delivered_mL, receivers };
  const folder = mkdtempSync(join(tmpdir(), 'bandfall-'));
  const text = handedInText({ who: 'A', scenario: 'theory-one-lane', seed: read.scenario.seed, log: read.scenario.procedure, predictions: [], claimed });
  const files = ['half.json', 'sound.json', 'missing.json'].map((name) => join(folder, name));
  writeFileSync(files[0], text.slice(0, 300));
  writeFileSync(files[1], text);
  const done = spawnSync(process.execPath, ['--import', 'tsx', 'src/headless/rehearse.ts', '--verify', ...files], { encoding: 'utf8', timeout: 120_000 });
  rmSync(folder, { recursive: true });
  expect(JSON.parse(done.stdout).map(({ verdict }: { verdict: string }) => verdict)).toEqual(['damaged', 'agrees', 'damaged']);
  expect(done.stderr.split('\n')[0]).toMatch(/half\.json \(damaged\): file, line \d+/);
  expect(done.stderr).toMatch(/missing\.json \(damaged\): file: expected a file that can be read; received ENOENT/);
  expect(done.status).toBe(2);
});
