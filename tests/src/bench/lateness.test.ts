import { expect, test } from 'vitest';
import { lessonWords, handlesOf, movedReceiver, switchWindow, targetsOf, withStop } from '../../../sim/history/index.ts';
import { handedInText, takenIn } from '../../../sim/handed/index.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { runWhole } from '../../../sim/run/run.ts';
import { judgementOf, judgementWords } from '../../../src/bench/debrief/debrief-numbers.ts';
import { shipped } from '../store/rig.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import json from '../../../scenarios/cathode-leach.json';

// One run, one lateness: in the debrief, in the line of the notebook, in the windows of coach and bench, on the page of a class.

const own = { ...json, bed: { lanes: 3 } };
const scenario = shipped('cathode-leach', { bed: { lanes: 3 } });
const targets = targetsOf(scenario);
const first = new Planner(scenario).plan(scenario.procedure);
const change = handlesOf(first.log, first.events).findLast(({ kind }) => kind === 'receiver');
const log = movedReceiver(first.log, first.events, change?.entry ?? 0, (change?.delivered_mL ?? 0) + 2.5);

test('a receiver changed late is as late in debrief, notebook, coach and class', async () => {
  const plan = new Planner(scenario).plan(log);
  const judged = judgementOf(scenario, plan, targets);
  const late_mL = judged?.found.late_mL ?? 0;
  expect(late_mL).toBeGreaterThan(1);
  const said = `${late_mL.toFixed(1)}\u202fmL`;
  expect(judged && judgementWords(judged, targets).join(' ')).toContain(`changed ${said} after the window`);
  expect(judged && lessonWords(judged.lesson, targets)).toContain(`change the receiver ${said} sooner`);

  const shown = switchWindow(plan, withStop(plan, targets));
  expect((judged?.kept.from_mL ?? 0) - (shown?.to_mL ?? 0)).toBeCloseTo(late_mL, 9);

  const results = resultsOf(runWhole(scenario, log));
  const claimed = { time_min: results.time_min, delivered_mL: results.delivered_mL, receivers: results.receivers };
  const text = handedInText({ who: 'a', scenario: own, seed: scenario.seed, log, predictions: [], claimed });
  const { run } = await takenIn('a.json', text, async () => undefined);
  // The class reads the change off the events, the debrief off the record in frames of 0.1 mL or less.
  expect((run?.change_mL ?? 0) - (run?.window_mL?.[1] ?? 0)).toBeCloseTo(late_mL, 2);
});
