import { describe, expect, test } from 'vitest';
import { against, type HandOut, handedOutScenario, handOutMark, handOutText, isHandOut, readHandOut, takenIn } from '../../../sim/handed/index.ts';
import { type HandedIn, handedInText } from '../../../sim/handed/index.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { runWhole } from '../../../sim/run/run.ts';
import json from '../../../scenarios/cathode-leach.json';

/** The shipped lesson on a bed of few cells, which is quick and coarse. */
const handOut: HandOut = {
  base: 'cathode-leach',
  differences: { bed: { lanes: 1, plates: 10, length_cm: 7 } },
  seed: 5,
  column: 'same',
  seeing: 'eye',
  tries: 2,
  asked: ['first-out', 'two-switches'],
  own: ['What would you do otherwise next time?'],
};

const issuesOf = (text: string) => {
  const read = readHandOut(text);
  return read.ok ? [] : read.issues.map(({ path, received }) => `${path}: ${received}`);
};

describe('what is handed out', () => {
  test('is read back as it was written, and has the same mark whatever the spaces', () => {
    const read = readHandOut(handOutText(handOut, 2));
    expect(read).toEqual({ ok: true, handOut });
    expect(handOutMark(handOut)).toMatch(/^[0-9a-f]{8}$/);
    expect(handOutMark({ ...handOut, tries: 3 })).not.toBe(handOutMark(handOut));
    const hidden: HandOut = { ...handOut, faults: 'hidden' };
    expect(readHandOut(handOutText(hidden))).toEqual({ ok: true, handOut: hidden });
    expect(handOutMark(hidden)).not.toBe(handOutMark(handOut));
  });

  test('is told from other files', () => {
    expect(isHandOut(handOutText(handOut))).toBe(true);
    expect(isHandOut('{"kind": "bandfall-run"}')).toBe(false);
    expect(isHandOut('no JSON')).toBe(false);
  });

  test.each([
    ['a question that turns the direction of the text', { own: ['say \u202e this'] }, /^own\[0\]/],
    ['a question with signs that are not seen', { own: ['a\u200bb'] }, /^own\[0\]/],
    ['a blank question', { own: ['  '] }, /^own\[0\]/],
    ['a question of a novel', { own: ['x'.repeat(201)] }, /^own\[0\]/],
    ['no tries', { tries: 0 }, /^tries/],
    ['half a try', { tries: 1.5 }, /^tries/],
    ['another way of seeing', { seeing: 'x-ray' }, /^seeing/],
    ['another kind of column', { column: 'best' }, /^column/],
    ['differences that are a list', { differences: [] }, /^differences/],
    ['a seed below zero', { seed: -1 }, /^seed/],
    ['faults that are half hidden', { faults: 'half' }, /^faults/],
  ])('with %s is refused, the place named', (_, part, path) => {
    expect(issuesOf(JSON.stringify({ ...JSON.parse(handOutText(handOut)), ...part }))[0]).toMatch(path);
  });

  test('of another kind or version is refused', () => {
    expect(issuesOf('{}')[0]).toMatch(/^kind/);
    expect(issuesOf(handOutText(handOut).replace('"version":1', '"version":2'))[0]).toMatch(/^version: 2/);
    expect(issuesOf('not JSON')[0]).toMatch(/^hand-out/);
  });
});

const read = handedOutScenario(handOut, json);
if (!read.ok) throw new Error(JSON.stringify(read.issues));
const scenario = { ...read.scenario, seed: handOut.seed };
const { time_min, delivered_mL, receivers } = resultsOf(runWhole(scenario, scenario.procedure));
const handed: HandedIn = {
  who: 'code 1',
  scenario: { base: handOut.base, differences: { ...(handOut.differences as object), seed: 5 } },
  seed: 5,
  log: scenario.procedure,
  predictions: [],
  claimed: { time_min, delivered_mL, receivers },
  under: { mark: handOutMark(handOut), attempt: 2, column: 'same', seeing: 'eye', tries: 2 },
  answers: [
    // Nickel is no anion in 9 M HCl and runs through; cobalt is held since it is one (Moore and Kraus 1952, recalled).
    { question: 'first-out', choice: 'Ni', reason: 'anion' },
    // One hold-up volume of acid is still in the bed when water is poured: it leaves first.
    { question: 'two-switches', choice: 'metal', reason: 'volume' },
    { question: 'What would you do otherwise next time?', words: '<b onclick="alert(1)">watch</b> the band' },
  ],
};
const known = async (id: string): Promise<unknown> => (id === 'cathode-leach' ? json : undefined);

async function taken(change: Partial<HandedIn> = {}) {
  const { verdict, issues, run } = await takenIn('a.json', handedInText({ ...handed, ...change }), known);
  if (!run) throw new Error(JSON.stringify(issues));
  return { verdict, run, apart: against(run, handOut, read.ok ? read.scenario : scenario).map(({ path, received }) => `${path}: ${received}`) };
}

describe('a run of what was handed out', () => {
  test('agrees, with its answers judged by the model and words left as they are', async () => {
    const { verdict, run, apart } = await taken();
    expect({ verdict, apart }).toEqual({ verdict: 'agrees', apart: [] });
    expect(run.answers.map(({ right, rightReason }) => [right, rightReason])).toEqual([
      [true, true],
      [false, true],
      [undefined, undefined],
    ]);
    expect(run.answers[2].said).toBe('<b onclick="alert(1)">watch</b> the band');
  });

  test('under other rules, beyond the tries, of another scenario or without the hand-out is named', async () => {
    const under = handed.under ?? { mark: '', attempt: 1, column: 'same', seeing: 'eye', tries: 2 };
    expect((await taken({ under: { ...under, seeing: 'forecast' } })).apart).toEqual(['seen before the end: forecast']);
    expect((await taken({ under: { ...under, attempt: 3 } })).apart).toEqual(['tries: try 3 of 2']);
    expect((await taken({ under: { ...under, mark: '00000000' } })).apart).toEqual(['hand-out: 00000000']);
    const { under: _, ...without } = handed;
    const alone = await takenIn('a.json', handedInText(without), known);
    expect(alone.run && against(alone.run, handOut, scenario)[0]).toMatchObject({ path: 'hand-out', received: 'a run made without it' });
    const other = { base: 'cathode-leach', differences: { bed: { lanes: 1, plates: 10, length_cm: 6 } } };
    expect((await taken({ scenario: other })).apart[0]).toBe('scenario: another');
    expect((await taken({ seed: 6 })).apart[0]).toBe('column (seed): 6');
  });

  test('with an answer that turns the direction of the text is damaged', async () => {
    const { verdict, issues } = await takenIn('a.json', handedInText({ ...handed, answers: [{ question: 'first-out', words: '\u202ereversed' }] }), known);
    expect(verdict).toBe('damaged');
    expect(issues[0].path).toBe('answers[0].words');
  });
});
