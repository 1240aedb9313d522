import { describe, expect, test } from 'vitest';
import { advance, runOf } from '../../../sim/run/run.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import type { Action, Log } from '../../../sim/terms/types.ts';
import { eluentEntry, logAhead } from '../../../src/coach/ahead.ts';
import { type Bench, occasionOf, questionOf } from '../../../src/coach/occasion.ts';
import { BEGINS_SHARE } from '../../../sim/history/index.ts';
import { outcomeOf } from '../../../src/coach/outcome.ts';
import { warningsOf } from '../../../src/coach/warnings.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import type { Prediction } from '../../../sim/handed/predictions.ts';
import { leavesAt, switchWindow, targetsOf, withStop } from '../../../sim/history/index.ts';
import { small } from '../store/rig.ts';

const SCENARIO = small();
const WHOLE = SCENARIO.procedure;
const WATER = eluentEntry(SCENARIO) ?? 0;
const LOAD = WHOLE.findIndex((action) => action.do === 'pour' && action.liquid === 'sample');
const CHANGE = WHOLE.findIndex((action) => action.do === 'receiver' && action.label === 'cobalt');
const STOP = WHOLE.length - 1;

/** The bench when the log so far is done. */
function benchAfter(log: Log): Bench {
  const planner = new Planner(SCENARIO);
  const plan = planner.plan(log);
  return { scenario: SCENARIO, plan, moment: planner.moment(plan.logEnd.time_min), targets: targetsOf(SCENARIO) };
}

function prediction(part: Partial<Prediction>): Prediction {
  return { occasion: 'load', entry: LOAD, asked_mL: 0, choice: '', reason: 'a guess', ...part };
}

describe('the coach asks', () => {
  test.each([
    ['load', LOAD],
    ['eluent', WATER],
    ['receiver', CHANGE],
    ['stop', STOP],
  ] as const)('before %s, and of the whole procedure only there', (occasion, entry) => {
    expect(occasionOf(WHOLE[entry], benchAfter(WHOLE.slice(0, entry)))).toBe(occasion);
  });

  test('nothing before conditioning, more of the same eluent, or opening the clamp', () => {
    const others = WHOLE.flatMap((action, entry) => ([LOAD, WATER, CHANGE, STOP].includes(entry) ? [] : [{ action, entry }]));
    for (const { action, entry } of others.filter((_, i) => i % 4 === 0)) expect(occasionOf(action, benchAfter(WHOLE.slice(0, entry)))).toBeUndefined();
  });

  test('with an answer for every ion and a reason to choose', () => {
    const question = questionOf('load', benchAfter([]));
    expect(question.choices.map(({ value }) => value)).toEqual(['Co', 'Ni', 'together']);
    expect(question.reasons.length).toBeGreaterThan(2);
  });
});

describe('an outcome', () => {
  test('is not told before the run has shown it', () => {
    const bench = benchAfter(WHOLE.slice(0, LOAD + 1));
    expect(outcomeOf(prediction({ choice: 'Ni' }), bench)).toBeUndefined();
    expect(outcomeOf(prediction({ occasion: 'eluent', volume_mL: 48 }), bench)).toBeUndefined();
  });

  test.each([
    ['Ni', true],
    ['Co', false],
    ['together', false],
  ] as const)('of loading is nickel first; "%s" agrees: %s', (choice, agrees) => {
    expect(outcomeOf(prediction({ choice }), benchAfter(WHOLE))).toMatchObject({ agrees, happened: expect.stringMatching(/^Ni²⁺ first/) as string });
  });

  test('of the eluent is the volume at which a fresh run has delivered one percent of the cobalt', () => {
    const bench = benchAfter(WHOLE);
    const at = leavesAt(bench.plan, 'Co', BEGINS_SHARE) ?? 0;
    const run = runOf(SCENARIO, [...WHOLE.slice(0, CHANGE), { do: 'wait', until: { delivered_mL: at } }]);
    advance(run, { endOfLog: true });
    const delivered = resultsOf(run).receivers.reduce((sum, receiver) => sum + Number(receiver['Co_mmol']), 0);
    // Interpolated between frames of 0.1 mL on a steep front.
    expect(delivered / 0.18).toBeGreaterThan(0.005);
    expect(delivered / 0.18).toBeLessThan(0.015);
    const told = outcomeOf(prediction({ occasion: 'eluent', entry: WATER, volume_mL: at - 3 }), bench);
    expect(told).toMatchObject({ agrees: false, at_mL: at, happened: expect.stringContaining('3.0\u202fmL later than you said') as string });
    expect(outcomeOf(prediction({ occasion: 'eluent', entry: WATER, volume_mL: at + 0.2 }), bench)?.agrees).toBe(true);
  });

  test('of changing the receiver with the first millilitres of water is strong acid without cobalt', () => {
    expect(outcomeOf(prediction({ occasion: 'receiver', entry: CHANGE, choice: 'acid' }), benchAfter(WHOLE))).toMatchObject({
      agrees: true,
      why: expect.stringContaining('Strong acid without') as string,
    });
  });

  test.each([
    ['all', true],
    ['less', false],
  ] as const)('of stopping after the whole procedure is all of the cobalt; "%s" agrees: %s', (choice, agrees) => {
    expect(outcomeOf(prediction({ occasion: 'stop', entry: STOP, choice }), benchAfter(WHOLE))).toMatchObject({ agrees });
  });

  test('of stopping too soon says that more eluent would have brought more', () => {
    const log: Log = [...WHOLE.slice(0, CHANGE + 1), { do: 'wait', until: { more_mL: 1.2 } }, { do: 'clamp', open_percent: 0 }];
    const told = outcomeOf(prediction({ occasion: 'stop', entry: log.length - 1, choice: 'all' }), benchAfter(log));
    expect(told).toMatchObject({ agrees: false, why: expect.stringContaining('More eluent') as string });
  });
});

describe('logAhead()', () => {
  const poured = (log: Log, liquid: string): number =>
    log.reduce((sum, action) => sum + (action.do === 'pour' && action.liquid === liquid ? action.volume_mL : 0), 0);

  test('knows nothing before the sample is on', () => {
    const bench = benchAfter(WHOLE.slice(0, LOAD));
    expect(logAhead(SCENARIO, bench.plan.log, bench.plan.log, bench.moment)).toBeUndefined();
  });

  test.each([LOAD + 2, WATER - 1, WATER + 1, CHANGE + 1])('goes on by the procedure after %i actions, to the same volume of water', (entries) => {
    const bench = benchAfter(WHOLE.slice(0, entries));
    const ahead = logAhead(SCENARIO, bench.plan.log, bench.plan.log, bench.moment) ?? [];
    expect(ahead.slice(0, entries)).toEqual(WHOLE.slice(0, entries));
    expect(poured(ahead, 'water')).toBe(30);
    expect(new Planner(SCENARIO).plan(ahead).results.refused).toEqual([]);
  });

  test('is the log itself where that still has something ahead', () => {
    const bench = benchAfter(WHOLE.slice(0, LOAD + 2));
    expect(logAhead(SCENARIO, WHOLE, WHOLE.slice(0, LOAD + 2), bench.moment)).toBe(WHOLE);
    expect(logAhead(SCENARIO, WHOLE, [], benchAfter([]).moment)).toBe(WHOLE);
  });
});

describe('while a press is under way', () => {
  test('the run ahead goes on after it, so that the window of the receiver is known before the water has run', () => {
    const { plan, moment } = benchAfter(WHOLE.slice(0, WATER));
    const pressed: Log = [...plan.log, { do: 'pour', liquid: 'water', volume_mL: 7.6, how: 'wall' }, { do: 'wait', until: { liquid_mm: 1 } }];
    const ahead = logAhead(SCENARIO, pressed, plan.log, moment) ?? [];
    expect(ahead.slice(0, pressed.length)).toEqual(pressed);
    const whole = new Planner(SCENARIO).plan(ahead);
    expect(switchWindow(whole, withStop(whole, targetsOf(SCENARIO)))).toBeDefined();
    const alone = new Planner(SCENARIO).plan(pressed);
    expect(switchWindow(alone, withStop(alone, targetsOf(SCENARIO)))).toBeUndefined();
  });
});

describe('the guide warns', () => {
  const NONE = { window: undefined, startWindow: undefined };
  const open: Action = { do: 'clamp', open_percent: 100 };

  test('of liquid two millimetres above the bed, and of a bed about to run dry', () => {
    expect(warningsOf(benchAfter([open, { do: 'wait', until: { liquid_mm: 5 } }]), NONE)).toEqual([]);
    expect(warningsOf(benchAfter([open, { do: 'wait', until: { liquid_mm: 2 } }]), NONE)).toEqual([expect.stringMatching(/^Liquid 2 mm above the bed/)]);
    expect(warningsOf(benchAfter([open, { do: 'wait', until: { liquid_mm: 0 } }]), NONE)).toEqual([expect.stringMatching(/bed top/)]);
  });

  test('of the receiver before, inside and after its window', () => {
    const bench = benchAfter(WHOLE.slice(0, CHANGE));
    const at = bench.moment.delivered_mL;
    const said = (from_mL: number, to_mL: number): string[] =>
      warningsOf(bench, { ...NONE, window: { from_mL, to_mL, stop_mL: 60, at: () => ({ volume_mL: 0, recovered: 0, carried: 0, acid_mmol: 0, NaOH_mL: 0 }) } });
    expect(said(at + 1, at + 2).join()).toContain('Keep the receiver');
    expect(said(at - 1, at + 1).join()).toContain('Change the receiver now');
    expect(said(at - 2, at - 1).join()).toContain('Late for the receiver');
  });
});
