import { describe, expect, test } from 'vitest';
import { type HandedIn, handedInText, takenIn } from '../../../sim/handed/index.ts';
import { readScenario } from '../../../sim/input/scenario.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { runWhole } from '../../../sim/run/run.ts';
import json from '../../../scenarios/cathode-leach.json';

/** The shipped lesson on a bed of few cells, which is quick and coarse. */
const own = { ...json, bed: { lanes: 1, plates: 10 } };
const read = readScenario(own, 'own');
if (!read.ok) throw new Error(JSON.stringify(read.issues));
const { scenario } = read;
const results = resultsOf(runWhole(scenario));
const { time_min, delivered_mL, receivers } = results;
const handed: HandedIn = {
  who: 'group 7, Zoë',
  scenario: own,
  seed: 1,
  log: scenario.procedure,
  predictions: [
    { occasion: 'load', entry: 9, asked_mL: 15, choice: 'Ni', reason: '' },
    { occasion: 'eluent', entry: 25, asked_mL: 45, choice: '', volume_mL: 2, reason: '' },
  ],
  claimed: { time_min, delivered_mL, receivers },
};
const text = handedInText(handed);
const known = async (id: string): Promise<unknown> => (id === 'cathode-leach' ? json : undefined);
const taken = (source: string) => takenIn('a.json', source, known);

describe('a run that was handed in', () => {
  test('comes to the same figures bit for bit, and says what was done in it', async () => {
    const { verdict, issues, run } = await taken(text);
    expect({ verdict, issues }).toEqual({ verdict: 'agrees', issues: [] });
    expect(run).toMatchObject({ who: 'group 7, Zoë', agrees: 'exactly', differences: [], unchanged: true, mistakes: [] });
    // Nickel is no anion in 9 M HCl and leaves first (Moore and Kraus 1952, recalled); nothing at all has left by 2 mL.
    expect(run?.predictions).toEqual([
      { occasion: 'load', right: true },
      { occasion: 'eluent', right: false },
    ]);
    expect((run?.change_mL ?? 0) - (run?.eluent_mL ?? 0)).toBeCloseTo(1.5, 2);
  });

  test('may be indented otherwise: only what it says counts', async () => {
    expect((await taken(JSON.stringify(JSON.parse(text), null, 4))).verdict).toBe('agrees');
  });

  test('is taken with what was done otherwise than the procedure', async () => {
    const log = scenario.procedure.map((action) => (action.do === 'wait' && 'more_mL' in action.until ? { ...action, until: { more_mL: 5 } } : action));
    const late = resultsOf(runWhole(scenario, log));
    const claimed = { time_min: late.time_min, delivered_mL: late.delivered_mL, receivers: late.receivers };
    const { verdict, run } = await taken(handedInText({ ...handed, log, claimed }));
    expect(verdict).toBe('agrees');
    expect(run?.mistakes.map(({ kind }) => kind)).toEqual(['receiver-late']);
  });
});

describe('what does not agree is named', () => {
  test('a figure that was bettered', async () => {
    const better = receivers.map((one) => ({ ...one, HCl_mmol: one.HCl_mmol / 2 }));
    const { verdict, issues, run } = await taken(handedInText({ ...handed, claimed: { ...handed.claimed, receivers: better } }));
    expect(verdict).toBe('altered');
    expect(issues.map(({ path }) => path)).toEqual(receivers.map((_, i) => `claimed.receivers[${i}].HCl_mmol`));
    expect(run?.agrees).toBe('no');
  });

  test('an action that was changed under figures that were kept', async () => {
    const log = scenario.procedure.map((action) => (action.do === 'pour' && action.liquid === 'sample' ? { ...action, volume_mL: 0.9 } : action));
    expect((await taken(handedInText({ ...handed, log }))).verdict).toBe('altered');
  });

  test('a name that was changed in the text, by the mark', async () => {
    const { verdict, issues, run } = await taken(text.replace('group 7', 'group 8'));
    expect(verdict).toBe('altered');
    expect(issues).toEqual([{ path: 'check', expected: expect.any(String), received: expect.any(String) }]);
    expect(run?.agrees).toBe('exactly');
  });

  test('figures of another release that differ in the last places are not called altered', async () => {
    const near = receivers.map((one) => ({ ...one, HCl_mmol: one.HCl_mmol * (1 + 1e-9) }));
    const { verdict, run } = await taken(handedInText({ ...handed, claimed: { ...handed.claimed, receivers: near } }));
    expect({ verdict, agrees: run?.agrees }).toEqual({ verdict: 'agrees', agrees: 'nearly' });
  });

  test.each([
    ['an empty file', '', 'damaged', 'file, line 1, column 1'],
    ['half a file', text.slice(0, 900), 'damaged', /^file, line \d+/],
    ['a list', '[]', 'foreign', 'kind'],
    ['a saved run', '{"kind": "bandfall-run", "version": 1}', 'foreign', 'kind'],
    ['one of a newer page', text.replace('"version": 1', '"version": 2'), 'foreign', 'version'],
    ['one of a scenario that is not here', handedInText({ ...handed, scenario: 'elsewhere' }), 'foreign', 'scenario'],
    ['one without a log', JSON.stringify({ ...JSON.parse(text), log: 5 }), 'damaged', 'log'],
    ['one with another key', JSON.stringify({ ...JSON.parse(text), mark: 'A' }), 'damaged', 'mark'],
    ['one with an impossible scenario', handedInText({ ...handed, scenario: { ...own, bed: { lanes: 400 } } }), 'damaged', 'scenario.bed.lanes'],
    [
      'one that pours from a bottle that is not there',
      handedInText({ ...handed, log: [{ do: 'pour', liquid: 'gin', volume_mL: 1 }] }),
      'damaged',
      'log[0].liquid',
    ],
  ])('%s', async (_, source, verdict, path) => {
    const found = await taken(source);
    expect(found.verdict).toBe(verdict);
    expect(found.run).toBeUndefined();
    expect(found.issues[0]?.path).toEqual(typeof path === 'string' ? path : expect.stringMatching(path));
  });
});
