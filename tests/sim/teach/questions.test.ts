import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ION_IDS } from '../../../sim/terms/ions.ts';
import { bandOf } from '../../../sim/column/measure.ts';
import { type Question, questionsOf } from '../../../sim/teach/questions.ts';
import { runWhole } from '../../../sim/run/run.ts';
import { parseScenario } from '../../../sim/input/scenario.ts';
import type { Scenario } from '../../../sim/terms/types.ts';

const SEED = 20_251_125;

function shipped(id: string): Scenario {
  const read = parseScenario(readFileSync(`scenarios/${id}.json`, 'utf8'), id);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.scenario;
}

const ids = readdirSync('scenarios')
  .filter((file) => file.endsWith('.json') && file !== 'schema.json')
  .map((file) => file.slice(0, -'.json'.length));
const leach = shipped('cathode-leach');

function asked(scenario: Scenario, id: string): Question {
  const question = questionsOf(scenario).find((each) => each.id === id);
  if (!question)
    throw new Error(
      `${id}: expected among the questions, received ${questionsOf(scenario)
        .map((each) => each.id)
        .join(', ')}`,
    );
  return question;
}

describe('questionsOf', () => {
  test.each(ids)('makes no more than eight of %s, each with its right choice and reason among the options', (id) => {
    const questions = questionsOf(shipped(id));
    expect(questions.length).toBeGreaterThanOrEqual(1);
    expect(questions.length).toBeLessThanOrEqual(8);
    for (const { choices, choice, reasons, reason, explanation } of questions) {
      expect(choices.map((option) => option.id)).toContain(choice);
      expect(reasons.map((option) => option.id)).toContain(reason);
      expect(new Set(choices.map((option) => option.text)).size).toBe(choices.length);
      expect(explanation).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  test('quotes no shares of species', () => {
    for (const { prompt, explanation } of questionsOf(leach)) expect(`${prompt} ${explanation}`).not.toMatch(/\d\s?%/);
  });

  test('makes five or more for the lesson everybody meets first', () => {
    expect(questionsOf(leach).length).toBeGreaterThanOrEqual(5);
  });

  test('never shows a number that is none, for any ions in any acid', () => {
    const ions = fc.uniqueArray(fc.constantFrom(...ION_IDS), { minLength: 1 });
    fc.assert(
      fc.property(ions, fc.double({ min: 0.1, max: 12, noNaN: true }), (some, HCl_M) => {
        for (const { prompt, explanation, choices, choice } of questionsOf({ ...leach, ions: some, liquids: { acid: { label: 'acid', HCl_M, ions: {} } } })) {
          expect(`${prompt} ${explanation}`).not.toMatch(/NaN|undefined|Infinity/);
          expect(choices.map(({ id }) => id)).toContain(choice);
        }
      }),
      { seed: SEED, numRuns: 60 },
    );
  });
});

describe('the answers', () => {
  // Moore and Kraus, J. Am. Chem. Soc. 74 (1952) 843, recalled: nickel passes, cobalt is held, most firmly near 9 M.
  test('agree with the classic paper on who leaves first and on 12 M against 9 M', () => {
    expect(asked(leach, 'first-out').choice).toBe('Ni');
    expect(asked(leach, 'strongest').choice).toBe('faster');
    expect(asked(leach, 'weaker').choice).toBe('faster');
    expect(asked(leach, 'pair').choice).toBe('strong');
  });

  test('agree with a run: with 6 M instead of 9 M the cobalt band has come further', () => {
    const even = { ...leach, values: { ...leach.values, 'bed.lanes': 1 } };
    const middles = [9, 6].map((HCl_M) => {
      const liquids = { acid: { label: 'acid', HCl_M, ions: {} }, sample: { label: 'sample', HCl_M, ions: { Co: 0.05 } } };
      const wait = { do: 'wait', until: { liquid_mm: 1 } } as const;
      const run = runWhole({ ...even, liquids }, [
        { do: 'clamp', open_percent: 100 },
        wait,
        { do: 'pour', liquid: 'acid', volume_mL: 12, hold_level: true },
        wait,
        { do: 'pour', liquid: 'sample', volume_mL: 0.5 },
        wait,
        { do: 'pour', liquid: 'acid', volume_mL: 8, hold_level: true },
        wait,
      ]);
      return bandOf(run.bed, run.column, 'Co')?.centroid_cm ?? Number.NaN;
    });
    expect(middles[1]).toBeGreaterThan(2 * middles[0]);
  });

  // Kraus and Moore, J. Am. Chem. Soc. 75 (1953) 1460, recalled.
  test('give the published order of six metals', () => {
    const { choices, choice } = asked(shipped('six-metals'), 'order');
    expect(choices.find(({ id }) => id === choice)?.text).toBe('Ni²⁺, Mn²⁺, Co²⁺, Cu²⁺, Fe³⁺, Zn²⁺');
  });

  test('say together of two ions with the same curve', () => {
    const curve = [
      [1, 0.1],
      [9, 30],
    ] as const;
    expect(asked({ ...leach, curves: { Co: curve, Ni: curve } }, 'first-out').choice).toBe('together');
    expect(asked({ ...leach, curves: { Co: curve, Ni: curve } }, 'pair').choice).toBe('no');
  });
});
