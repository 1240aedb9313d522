import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  collectedAt,
  deliveredAtEnd,
  handlesOf,
  isSettled,
  leavesAt,
  lessonOf,
  lessonWords,
  movedReceiver,
  pouredOf,
  progressOf,
  switchWindow,
  targetsOf,
  withStop,
} from '../../../../sim/history/index.ts';
import { parseScenario } from '../../../../sim/input/scenario.ts';
import type { Log } from '../../../../sim/terms/types.ts';
import { Planner } from '../../../../src/store/threads/planner.ts';

// The sentence of the debrief against the run it speaks of. Volumes and amounts are read off the run, none are stored here.

const read = parseScenario(readFileSync(new URL('../../../../scenarios/cathode-leach.json', import.meta.url), 'utf8'), 'cathode-leach');
if (!read.ok) throw new Error(JSON.stringify(read.issues));
const scenario = { ...read.scenario, values: { ...read.scenario.values, 'bed.lanes': 1, 'bed.plates': 30 } };
const targets = targetsOf(scenario);
const whole = new Planner(scenario).plan(scenario.procedure);
const change = handlesOf(whole.log, whole.events).findLast(({ kind }) => kind === 'receiver');

function told(log: Log) {
  const plan = new Planner(scenario).plan(log);
  const { eluent_mL } = progressOf(scenario, plan.events);
  const lesson = lessonOf(plan, targets, eluent_mL);
  return { plan, lesson, words: lessonWords(lesson, targets) };
}

/** The procedure with the change of receiver this far outside its window. */
function changedAt(edge: 'from_mL' | 'to_mL', off_mL: number) {
  const window = switchWindow(whole, withStop(whole, targets));
  if (!window || !change) throw new Error('procedure: expected a window and a change of receiver');
  return { window, ...told(movedReceiver(whole.log, whole.events, change.entry, window[edge] + off_mL)) };
}

const sampleAt = whole.log.findIndex((action) => action.do === 'pour' && action.liquid === 'sample');

/** The procedure with its receiver changed at a delivered volume. */
function changedTo(at_mL: number): Log {
  if (!change) throw new Error('procedure: expected a change of receiver');
  return movedReceiver(whole.log, whole.events, change.entry, at_mL);
}

/** As much of a log as is done before a delivered volume, and nothing more after it. */
function stoppedAt(log: Log, stop_mL: number): Log {
  const ahead = new Planner(scenario).plan(log).events.find(({ entry, delivered_mL }) => entry >= 0 && delivered_mL > stop_mL)?.entry;
  return [...log.slice(0, ahead), { do: 'wait', until: { delivered_mL: stop_mL } }, { do: 'clamp', open_percent: 0 }];
}

describe('the one line of the debrief', () => {
  test('asks for nothing else after the procedure, and tells what is in the receiver', () => {
    const { lesson, words, plan } = told(scenario.procedure);
    expect(lesson.advice.kind).toBe('nothing');
    const kept = plan.results.receivers.find(({ label }) => label === lesson.kept?.label);
    const share = Number(kept?.['Co_mmol']) / pouredOf(plan, 'Co');
    expect(words).toContain(`${(100 * share).toFixed(1)}\u202f% of the cobalt(II) was recovered`);
    // Interpolated within a frame of 0.1 mL on a steep front.
    expect(lesson.found?.acid_mmol).toBeCloseTo(Number(kept?.HCl_mmol), 1);
  });

  test('tells how far outside its window the receiver was changed', () => {
    const late = changedAt('to_mL', 0.6);
    expect(late.lesson.advice).toMatchObject({ kind: 'change-sooner' });
    expect(late.words).toMatch(/change the receiver 0\.6\u202fmL sooner/);
    const early = changedAt('from_mL', -0.6);
    expect(early.words).toMatch(/change the receiver 0\.6\u202fmL later/);
  });

  test('near its window advises a volume that can be told, on the right side of it, and says which limit was missed', () => {
    for (const off_mL of [0.01, 0.03, 0.06]) {
      const early = changedAt('from_mL', -off_mL);
      const [, by, at] = /change the receiver (\d+\.\d)\u202fmL later, at (\d+\.\d)\u202fmL or after: sooner it takes more than/.exec(early.words) ?? [];
      expect(Number(by), early.words).toBeGreaterThanOrEqual(0.1);
      expect(Number(at)).toBeGreaterThanOrEqual(early.window.from_mL - 1e-9);
      expect(at).not.toBe(early.lesson.kept?.from_mL.toFixed(1));
      expect(told(changedTo(Number(at))).lesson.advice.kind).toBe('nothing');

      const late = changedAt('to_mL', off_mL);
      const [, less, sooner] = /change the receiver (\d+\.\d)\u202fmL sooner, at (\d+\.\d)\u202fmL/.exec(late.words) ?? [];
      expect(Number(less), late.words).toBeGreaterThanOrEqual(0.1);
      expect(Number(sooner)).toBeLessThanOrEqual(late.window.to_mL + 1e-9);
      expect(told(changedTo(Number(sooner))).lesson.advice.kind).toBe('nothing');
    }
  });

  test('names the whole loss, not the little beyond what may be lost, and writes it so that it is seen to be more', () => {
    const { lesson, words } = changedAt('to_mL', 0.03);
    const lost = 1 - (lesson.found?.recovered ?? 0);
    const before = `${(100 * (lesson.found?.lostBefore ?? 0)).toFixed(1)}\u202f% had left before the change`;
    expect(lost).toBeGreaterThan(1 - targets.recovered);
    expect(words).toContain(before);
    const [, recovered, limit] = /^(\d+\.\d+)\u202f% .* where (\d\.\d+)\u202f% may be lost/.exec(words) ?? [];
    expect(Number(recovered)).toBeLessThan(100 * targets.recovered);
    expect(Number(limit)).toBeCloseTo(100 * (1 - targets.recovered), 3);
  });

  // The share is read off the two runs: what the receiver holds when it is changed when told, less what it held.
  test('asks for a sooner change where most left before it, though some stayed behind as well', () => {
    const stop_mL = leavesAt(whole, 'Co', 0.985) ?? 0;
    const late_mL = leavesAt(whole, 'Co', 0.75) ?? 0;
    const { lesson, words } = told(stoppedAt(changedTo(late_mL), stop_mL));
    expect(lesson.window).toBeUndefined();
    if (lesson.advice.kind !== 'change-sooner') throw new Error(`expected change-sooner, received ${lesson.advice.kind}`);
    const { at_mL, by_mL, share } = lesson.advice;
    expect(by_mL).toBeCloseTo(late_mL - at_mL, 1);
    const mended = told(stoppedAt(changedTo(at_mL), stop_mL));
    expect((mended.lesson.found?.recovered ?? 0) - (lesson.found?.recovered ?? 0)).toBeCloseTo(share, 2);
    expect(share).toBeGreaterThan(0.7);
    expect(mended.lesson.advice.kind).toBe('elute-on');
    expect(words).toContain(
      `change the receiver ${by_mL.toFixed(1)}\u202fmL sooner, at ${(Math.floor(10 * at_mL) / 10).toFixed(1)}\u202fmL, since ${(100 * share).toFixed(1)}\u202f% of the cobalt(II) left in between; let more of the weaker eluent run through as well, since ${(100 * (lesson.found?.lostBehind ?? 0)).toFixed(1)}\u202f% of the cobalt(II) stayed behind and ${(100 * (1 - targets.recovered)).toFixed(1)}\u202f% may be lost.`,
    );
  });

  test('blames what stayed behind where that is more than what left before a late change', () => {
    const { lesson } = told(stoppedAt(changedTo(leavesAt(whole, 'Co', 0.1) ?? 0), leavesAt(whole, 'Co', 0.7) ?? 0));
    expect(lesson.advice).toEqual({ kind: 'elute-on', share: expect.closeTo(0.3, 1) as number });
  });

  test('blames the larger: an early change that takes the nickel, not the little that stayed behind', () => {
    const { lesson, words } = told(stoppedAt(changedTo(leavesAt(whole, 'Ni', 0.3) ?? 0), leavesAt(whole, 'Co', 0.985) ?? 0));
    expect(lesson.window).toBeUndefined();
    expect(lesson.found?.carried).toBeGreaterThan(0.5);
    if (lesson.advice.kind !== 'change-later') throw new Error(`expected change-later, received ${lesson.advice.kind}`);
    const mended = told(stoppedAt(changedTo(lesson.advice.at_mL), leavesAt(whole, 'Co', 0.985) ?? 0));
    expect(mended.lesson.found?.carried).toBeLessThanOrEqual(targets.carried + 1e-3);
    expect(words).toMatch(
      /change the receiver \d+\.\d\u202fmL later, .*; let more of the weaker eluent run through as well, since \d\.\d\u202f% of the cobalt\(II\) stayed behind/,
    );
    expect(mended.lesson.advice.kind).toBe('elute-on');
  });

  test('says of a change alone that it is enough where it is', () => {
    expect(changedAt('to_mL', 2).words).not.toMatch(/as well|even then/);
  });

  test('blames the water where it came so late that cobalt had left under the acid', () => {
    const water = whole.log.findIndex((action, i) => i > sampleAt && action.do === 'pour' && action.liquid === 'water');
    const more = Array.from(
      { length: 12 },
      (): Log => [
        { do: 'pour', liquid: 'acid', volume_mL: 5 },
        { do: 'wait', until: { liquid_mm: 1 } },
      ],
    ).flat();
    const { lesson, plan } = told([...whole.log.slice(0, water), ...more, ...whole.log.slice(water)]);
    const { eluent_mL = 0 } = progressOf(scenario, plan.events);
    expect(lesson.advice).toEqual({ kind: 'elute-sooner', share: expect.closeTo(collectedAt(plan, 'Co', eluent_mL) / pouredOf(plan, 'Co'), 6) as number });
    expect(lesson.found?.lostBefore).toBeGreaterThan(0.05);
  });

  test('asks for more of the eluent when cobalt stayed behind', () => {
    const stop_mL = leavesAt(whole, 'Co', 0.8) ?? 0;
    const ahead = whole.events.find(({ entry, delivered_mL }) => entry >= 0 && delivered_mL > stop_mL)?.entry;
    const { lesson, words } = told([...whole.log.slice(0, ahead), { do: 'wait', until: { delivered_mL: stop_mL } }, { do: 'clamp', open_percent: 0 }]);
    // A fifth, to within the last drop.
    expect(lesson.advice).toEqual({ kind: 'elute-on', share: expect.closeTo(0.2, 1) as number });
    expect(words).toMatch(/let more of the weaker eluent run through, since (1\d|2\d)\.\d\u202f% of the cobalt\(II\) stayed behind/);
  });

  test('asks for a longer wash when nickel was still to come', () => {
    const sample = whole.log.findIndex((action) => action.do === 'pour' && action.liquid === 'sample');
    const water = whole.log.findIndex((action, i) => i > sample && action.do === 'pour' && action.liquid === 'water');
    const low = { do: 'wait', until: { liquid_mm: 1 } } as const;
    const { lesson, words, plan } = told([...whole.log.slice(0, sample + 1), low, { do: 'receiver', label: 'cobalt' }, ...whole.log.slice(water)]);
    expect(lesson.advice).toMatchObject({ kind: 'wash-longer', ion: 'Ni' });
    expect(words).toContain('wash longer');
    expect(pouredOf(plan, 'Ni')).toBeGreaterThan(0);
  });

  test('tells that nothing was collected while the cobalt is on the bed', () => {
    const sample = whole.log.findIndex((action) => action.do === 'pour' && action.liquid === 'sample');
    expect(told(whole.log.slice(0, sample)).words).toMatch(/^No cobalt\(II\) has been collected/);
  });
});

test('isSettled() is false through the wash and true once the cobalt has left', () => {
  const { eluent_mL = 0 } = progressOf(scenario, whole.events);
  for (const part of [0, 0.25, 0.5, 0.75, 1]) expect(isSettled(whole, targets, part * eluent_mL)).toBe(false);
  expect(isSettled(whole, targets, deliveredAtEnd(whole))).toBe(true);
});
