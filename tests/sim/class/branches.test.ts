import { expect, test } from 'vitest';
import { branchesOf } from '../../../sim/class/branches.ts';
import { washedWith } from '../../../sim/class/washed.ts';
import { wholePlan } from '../../../sim/class/whole.ts';
import { readScenario } from '../../../sim/input/scenario.ts';
import type { Log } from '../../../sim/terms/types.ts';
import json from '../../../scenarios/cathode-leach.json';

const read = readScenario({ ...json, bed: { lanes: 1, plates: 20 } }, 'cathode-leach');
if (!read.ok) throw new Error(JSON.stringify(read.issues));
const { scenario } = read;

/** The written wash, longer ones that share its beginning, a shorter one, nothing in common, and the first again. */
const logs: readonly Log[] = [
  scenario.procedure,
  washedWith(scenario, scenario.procedure, 40),
  washedWith(scenario, scenario.procedure, 34),
  washedWith(scenario, scenario.procedure, 10),
  washedWith(scenario, scenario.procedure, 10).slice(0, 9),
  scenario.procedure.slice(2),
  scenario.procedure,
];

test('each log comes to what it comes to by itself, bit for bit', () => {
  const planned = branchesOf(scenario);
  for (const log of logs) {
    const [together, alone] = [planned(log), wholePlan(scenario, log)];
    const { rows, profiles, count, stride, components, plates } = together;
    expect(count).toBe(alone.count);
    expect(rows.slice(0, count * stride)).toEqual(alone.rows.slice(0, count * stride));
    expect(profiles.slice(0, count * components * plates)).toEqual(alone.profiles.slice(0, count * components * plates));
    expect(together.results).toEqual(alone.results);
    expect(together.events).toEqual(alone.events);
  }
});
