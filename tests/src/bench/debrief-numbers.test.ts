import { describe, expect, test } from 'vitest';
import { runWhole } from '../../../sim/run/run.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { amountOf, factsOf, judgementOf, judgementWords, placesOf, tryWords } from '../../../src/bench/debrief/debrief-numbers.ts';
import { endedWords } from '../../../src/bench/debrief/ended.ts';
import { shareWords } from '../../../src/bench/debrief/where-bar.ts';
import { eventWords, refusalWords } from '../../../src/bench/said/event-words.ts';
import { handlesOf, lessonWords, movedReceiver, targetsOf } from '../../../sim/history/index.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { small } from '../store/rig.ts';

const SCENARIO = small();
const TARGETS = targetsOf(SCENARIO);
const PLAN = new Planner(SCENARIO).plan(SCENARIO.procedure);
const CHANGE = handlesOf(PLAN.log, PLAN.events).findLast(({ kind }) => kind === 'receiver');

function judged(moved_mL: number) {
  const log = movedReceiver(PLAN.log, PLAN.events, CHANGE?.entry ?? 0, (CHANGE?.delivered_mL ?? 0) + moved_mL);
  const plan = new Planner(SCENARIO).plan(log);
  const found = judgementOf(SCENARIO, plan, TARGETS);
  if (!found) throw new Error('judgement: expected one');
  return { found, words: judgementWords(found, TARGETS).join(' '), results: resultsOf(runWhole(SCENARIO, log)), log };
}

function judgedOf(log: Log) {
  const found = judgementOf(SCENARIO, new Planner(SCENARIO).plan(log), TARGETS);
  if (!found) throw new Error('judgement: expected one');
  return found;
}

test('placesOf() holds every mmol that was poured or was there from the start', () => {
  const places = placesOf(PLAN.results);
  for (const ion of SCENARIO.ions) expect(places.reduce((sum, place) => sum + amountOf(place, ion), 0)).toBeCloseTo(PLAN.results.loaded[`${ion}_mmol`] ?? 0, 9);
});

describe('the judgement', () => {
  test('of the procedure finds the change inside its window', () => {
    const { found, words } = judged(0);
    expect(found.found.meets).toBe(true);
    expect(words).toContain('inside the window');
  });

  test('of a late change tells the cobalt in the other receiver, as the runner counts it', () => {
    const { found, words, results } = judged(2);
    const elsewhere = Number(results.receivers.find(({ label }) => label === 'nickel')?.['Co_mmol']);
    // Interpolated within a frame of 0.1 mL on a steep front.
    expect(Math.abs(found.lost.before_mmol - elsewhere)).toBeLessThan(0.002);
    expect(found.found.late_mL).toBeGreaterThan(0);
    expect(words).toContain('after the window');
    expect(tryWords(found.lesson)).toBe('the receiver sooner');
  });

  test('tells the same share in the one line, in the list and in the table of places', () => {
    const { found, words, results, log } = judged(2);
    const places = placesOf(results);
    const poured = places.reduce((sum, place) => sum + amountOf(place, 'Co'), 0);
    const [nickel, cobalt] = places.map((place) => shareWords(amountOf(place, 'Co') / poured));
    expect(lessonWords(found.lesson, TARGETS)).toContain(`${cobalt} of the cobalt(II) was recovered`);
    expect(words).toContain(`took ${cobalt} of the cobalt(II)`);
    expect(words).toContain(`${nickel} of the cobalt(II) had already dripped into another receiver`);
    expect(endedWords(new Planner(SCENARIO).plan(log), TARGETS).text).toContain(`holds ${cobalt} of the Co`);
  });

  test('of an early change tells the acid that need not have been carried', () => {
    const { found, words } = judged(-1.9);
    expect(found.found.early_mL).toBeGreaterThan(0);
    expect(found.needlessAcid_mmol).toBeGreaterThan(10);
    expect(found.needlessNaOH_mL).toBeCloseTo(found.needlessAcid_mmol / SCENARIO.values['bench.NaOH_M'], 9);
    expect(words).toContain('before the window');
    expect(tryWords(found.lesson)).toBe('the receiver later');
  });

  test('of a change just before its window tells by how much, and never by nothing', () => {
    const { window } = judged(0).found;
    const { words } = judged((window?.from_mL ?? 0) - 0.03 - (CHANGE?.delivered_mL ?? 0));
    const [, by] = /was changed (\d\.\d+)\u202fmL before the window/.exec(words) ?? [];
    expect(Number(by), words).toBeGreaterThan(0);
  });

  test('where no change would have done tells whether collecting stopped too soon or the bands left together', () => {
    const without = PLAN.log.filter((action, i) => action.do !== 'pour' || i <= PLAN.log.findLastIndex(({ do: done }) => done === 'receiver') + 1);
    const stopped = judgedOf(without);
    expect(stopped.found.lostBehind).toBeGreaterThan(0.005);
    expect(judgementWords(stopped, TARGETS).join(' ')).toMatch(
      /collecting stopped too soon, when only \d+\.\d+\u202f% of the cobalt\(II\) had left the column/,
    );
    const strict = { ...TARGETS, acid_mmol: 0.001, recovered: 0.9 };
    const together = judgementOf(SCENARIO, PLAN, strict);
    expect(together && judgementWords(together, strict).join(' ')).toContain('since they left together');
  });

  test('is none while no cobalt has left', () => {
    expect(judgementOf(SCENARIO, new Planner(SCENARIO).plan([{ do: 'clamp', open_percent: 100 }]), TARGETS)).toBeUndefined();
  });
});

test('factsOf() tells volumes poured, time and the lowest liquid', () => {
  const facts = Object.fromEntries(factsOf(SCENARIO, PLAN.results, PLAN, PLAN.logEnd.time_min).map(({ label, value }) => [label, value]));
  expect(facts['water poured']).toBe('30.0\u202fmL');
  expect(facts['9 M HCl poured']).toBe('51.0\u202fmL');
  expect(facts['lowest liquid above the bed']).toBe('1.0\u202fmm');
});

test('a refusal is told with what was expected and what was given', () => {
  const plan = new Planner(SCENARIO).plan([{ do: 'pour', liquid: 'acid', volume_mL: 900 }]);
  const [event] = plan.events;
  expect(event && eventWords(event, SCENARIO)).toMatch(/^Refused: expected at most .* mL before the tube overflows; received 900 mL$/);
  expect(refusalWords({ path: 'label', expected: 'a', received: 'b' })).toBe('Refused: expected a; received b');
});
