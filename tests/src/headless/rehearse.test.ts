import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';

it('ends a run that would take for ever, prints how far it came, and says why with exit code 2', () => {
  const folder = mkdtempSync(join(tmpdir(), 'bandfall-'));
  const log = join(folder, 'log.json');
  writeFileSync(
    log,
    JSON.stringify([
      { do: 'clamp', open_percent: 0.1 },
      { do: 'pour', liquid: 'acid', volume_mL: 2 },
      { do: 'wait', until: { liquid_mm: 1 } },
    ]),
  );
  const done = spawnSync(process.execPath, ['--import', 'tsx', 'src/headless/rehearse.ts', 'scenarios/theory-one-lane.json', '--json', '--log', log], {
    encoding: 'utf8',
    timeout: 60_000,
  });
  rmSync(folder, { recursive: true });
  expect(done.stderr).toBe('run: expected its log done; received run ended: 10000 min is the longest run\n');
  expect(done.status).toBe(2);
  expect(JSON.parse(done.stdout).time_min).toBe(10_000);
});
