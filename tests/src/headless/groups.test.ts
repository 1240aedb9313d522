import { expect, test } from 'vitest';
import { classAnswer, classForecast, classTasks, forClass } from '../../../sim/class/index.ts';
import { readScenario } from '../../../sim/input/index.ts';
import { groupsJson } from '../../../src/headless/groups.ts';
import json from '../../../scenarios/cathode-leach.json';

const read = readScenario({ ...json, bed: { plates: 20 } }, 'cathode-leach');
if (!read.ok) throw new Error(JSON.stringify(read.issues));
const { scenario } = read;

test('two threads come to what one does, in the same order', { timeout: 120_000 }, async () => {
  const lab = forClass(scenario);
  const tasks = classTasks(2);
  const alone = classForecast(
    lab,
    tasks,
    tasks.map((task) => classAnswer(lab, task)),
  );
  expect(JSON.parse(await groupsJson(scenario, 2, 2))).toEqual(JSON.parse(JSON.stringify(alone)));
});
