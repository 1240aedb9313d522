import { expect, test } from 'vitest';
import { lessonWords, handlesOf, movedReceiver, progressOf, switchWindow, targetsOf, withStop } from '../../../sim/history/index.ts';
import { handedInText, takenIn } from '../../../sim/handed/index.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { runWhole } from '../../../sim/run/run.ts';
import { judgementOf, judgementWords } from '../../../src/bench/debrief/debrief-numbers.ts';
import { putTooLate } from '../../../src/bench/debrief/ended.ts';
import type { Log, Scenario } from '../../../sim/terms/types.ts';
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

async function inClass(of: Scenario, done: Log) {
  const results = resultsOf(runWhole(of, done));
  const claimed = { time_min: results.time_min, delivered_mL: results.delivered_mL, receivers: results.receivers };
  const text = handedInText({ who: 'a', scenario: own, seed: of.seed, log: done, predictions: [], claimed });
  return (await takenIn('a.json', text, async () => undefined)).run;
}

/** The procedure with the receiver changed before a pour of it, counted from the first water: 0 is with the water. */
function changedAt(pour: number): Log {
  const { procedure } = scenario;
  const isWater = (action: Log[number]): boolean => action.do === 'pour' && action.liquid === 'water';
  const changed = procedure.filter((action) => action.do === 'receiver').at(-1);
  const rest = procedure.filter((action) => action !== changed && !(action.do === 'wait' && 'more_mL' in action.until));
  const pours = rest.flatMap((action, i) => (action.do === 'pour' ? [i] : []));
  const at = pours[pours.indexOf(rest.findIndex(isWater)) + pour];
  return changed ? [...rest.slice(0, at), changed, ...rest.slice(at)] : [];
}

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

  const run = await inClass(scenario, log);
  // The class reads the change off the events, the debrief off the record in frames of 0.1 mL or less.
  expect((run?.change_mL ?? 0) - (run?.window_mL?.[1] ?? 0)).toBeCloseTo(late_mL, 2);
});

test('a receiver changed just before the water was poured is early, not late, wherever it is told', async () => {
  for (const seed of [scenario.seed, 101]) {
    const column = { ...scenario, seed };
    const plan = new Planner(column).plan(changedAt(0));
    const { eluent_mL = Number.NaN, change_mL } = progressOf(column, plan.events);
    expect(change_mL).toBe(eluent_mL);
    const run = await inClass(column, plan.log);
    expect([run?.eluent_mL, run?.change_mL]).toEqual([eluent_mL, eluent_mL]);
    expect(run?.mistakes.map(({ kind }) => kind)).toContain('receiver-early');
    expect(putTooLate(plan, targets, eluent_mL)).toBeUndefined();
    const judged = judgementOf(column, plan, targets);
    expect(judged && judgementWords(judged, targets).join(' ')).toContain(
      'The receiver was changed with the weaker eluent, 0.0\u202fmL after it began, too early for the acid',
    );
  }
});

test('what left in a wash that was too long is not put down to a receiver changed with the water', () => {
  const log = changedAt(0);
  const change = log.findLastIndex((action) => action.do === 'receiver');
  const longer: Log = [...log.slice(0, change), { do: 'pour', liquid: 'acid', volume_mL: 8 }, { do: 'wait', until: { liquid_mm: 1 } }, ...log.slice(change)];
  const plan = new Planner(scenario).plan(longer);
  const { eluent_mL = Number.NaN } = progressOf(scenario, plan.events);
  const judged = judgementOf(scenario, plan, targets);
  expect(judged?.found.lostBefore).toBeGreaterThan(1 - targets.recovered);
  expect(judged?.lesson.advice.kind).toBe('elute-sooner');
  expect(putTooLate(plan, targets, eluent_mL)).toBeUndefined();
});

test('a receiver changed a pour before the water is found by the class as well', async () => {
  const plan = new Planner(scenario).plan(changedAt(-1));
  const { eluent_mL = Number.NaN } = progressOf(scenario, plan.events);
  const run = await inClass(scenario, plan.log);
  expect(eluent_mL - (run?.change_mL ?? Number.NaN)).toBeCloseTo(6, 1);
  const judged = judgementOf(scenario, plan, targets);
  expect(judged && judgementWords(judged, targets).join(' ')).toMatch(
    /The receiver was changed before the weaker eluent, 6\.0\u202fmL before it began, too early/,
  );
});
