import { expect, test } from 'vitest';
import { targetsOf, verdict } from '../../../sim/history/index.ts';
import { handlesOf } from '../../../sim/history/index.ts';
import { verdictLine, verdictWords } from '../../../src/figure/rows/targets.ts';
import { wholeRun, workedRun } from './runs.ts';

const { scenario, plan } = wholeRun('cathode-leach');
const targets = { ...targetsOf(scenario), recovered: 0.995, carried: 0.005, acid_mmol: 20 };
const found = verdict(plan, targets, 40);

function said(part: Partial<typeof found>, settled = true): string {
  return verdictWords({ ...found, recovered: 1, carried: 0, acid_mmol: 10, ...part }, targets, settled, false)
    .join(' · ')
    .replaceAll(/[\u00a0\u202f]/g, ' ');
}

test('names the limit that was missed, once the run has settled it', () => {
  expect(said({ acid_mmol: 29.1 })).toContain('acid 29 mmol: more than the 20 mmol that the task allows');
  expect(said({ recovered: 0.93 })).toContain('Co²⁺ 93.0 %: less than the 99.5 % that the task asks for');
  expect(said({ carried: 0.02 })).toContain('Ni²⁺ 2.0 %: more than the 0.5 % that the task allows');
  expect(said({ recovered: 0.93, acid_mmol: 29.1 })).toMatch(/\(task: 99.5 %\).*\(task: 20 mmol\)/);
  expect(said({})).not.toContain('task');
  expect(said({ acid_mmol: 29.1 }, false)).not.toContain('task');
});

test('writes a figure that misses its limit so that it is seen to miss', () => {
  expect(said({ carried: 0.0051 })).toContain('Ni²⁺ 0.51 %: more than the 0.5 % that the task allows');
  expect(said({ recovered: 0.9498 + 0.045 })).toContain('Co²⁺ 99.48 %: less than the 99.5 %');
  expect(said({ acid_mmol: 20.3 })).toContain('acid 20.3 mmol: more than the 20 mmol');
});

/** The line under the receivers with its receiver changed later, at a width in px. */
function line(width: number, later_mL: number): string {
  const change = handlesOf(plan.log, plan.events).findLast(({ kind }) => kind === 'receiver');
  if (!change) throw new Error('cathode-leach: expected a change of receiver');
  const drawn = verdictLine(workedRun('cathode-leach', width, 420), targets, 1e9, { entry: change.entry, delivered_mL: change.delivered_mL + later_mL });
  return String((drawn as { values: unknown[] }).values.at(-1)).replaceAll(/[\u00a0\u202f]/g, ' ');
}

test('says what was missed before what was met where a phone has no room for both', () => {
  expect(line(366, 0)).toMatch(/^✓ Co²⁺ .* · Ni²⁺ .* · acid/);
  expect(line(256, 0)).toMatch(/^✓ Co²⁺ [^·]* · Ni²⁺ [^·]*$/);
  expect(line(366, 4)).toMatch(/^✗ Co²⁺ \d+\.\d % \(task: 99\.5 %\)$/);
  expect(line(1200, 4)).toMatch(/^✗ cobalt · Co²⁺ .*: less than the 99\.5 % that the task asks for · Ni²⁺ .* · acid/);
});
