import { describe, expect, test } from 'vitest';
import { keptHolds, keptOf, lessonOf, lessonWords, progressOf, targetsOf } from '../../../../sim/history/index.ts';
import { receiversFor } from '../../../../sim/history/changes/meant.ts';
import type { Action, Log } from '../../../../sim/terms/types.ts';
import { Planner } from '../../../../src/store/threads/planner.ts';
import { shipped, small } from '../../../src/store/rig.ts';

// Which receiver counts, on runs whose receivers hold what their actions put there.

const SCENARIO = small();
const TARGETS = targetsOf(SCENARIO);
const CHANGE = SCENARIO.procedure.findLastIndex(({ do: what }) => what === 'receiver');
const UNCHANGED = SCENARIO.procedure.filter((_, i) => i !== CHANGE);
const label = (text: string): Action => ({ do: 'receiver', label: text });

function told(log: Log, labels?: readonly string[]) {
  const plan = new Planner(SCENARIO).plan(log);
  const targets = labels ? { ...TARGETS, receivers: labels } : TARGETS;
  const lesson = lessonOf(plan, targets, progressOf(SCENARIO, plan.events).eluent_mL);
  return { plan, kept: keptOf(plan, targets), holds: keptHolds(plan, targets), lesson, words: lessonWords(lesson, targets) };
}

describe('the receivers that a procedure means for its target', () => {
  test.each([
    ['cathode-leach', ['cobalt']],
    ['lab-day', ['cobalt 1', 'cobalt 2', 'cobalt 3']],
    ['six-metals', ['cobalt']],
    ['theory-one-lane', []],
  ])('of %s are those that stand under the tip for the release', (id, labels) => {
    expect(receiversFor(shipped(id), 'Co')).toEqual(labels);
  });

  test('may be put there together with water, a little later, or long before', () => {
    const pour = (liquid: string): Action => ({ do: 'pour', liquid, volume_mL: 5 });
    const meant = (...procedure: Action[]) => receiversFor({ ...SCENARIO, procedure: [label('first'), pour('acid'), ...procedure] }, 'Co');
    expect(meant(pour('sample'), pour('acid'), label('with it'), pour('water'), label('rest'))).toEqual(['with it']);
    expect(meant(pour('sample'), label('nickel'), pour('acid'), pour('water'), label('later'), pour('water'))).toEqual(['later']);
    expect(meant(pour('sample'), label('before'), pour('acid'), pour('water'))).toEqual(['before']);
  });
});

describe('the receiver that counts', () => {
  test('is the one meant for cobalt though all the cobalt dripped into the other', () => {
    const { kept, holds, words } = told([...UNCHANGED, { do: 'clamp', open_percent: 100 }, label('cobalt'), { do: 'wait', until: { elapsed_min: 0.001 } }]);
    expect(kept?.label).toBe('cobalt');
    expect(holds.recovered).toBeLessThan(0.01);
    expect(holds.carried).toBeLessThan(0.01);
    expect(words).toMatch(/^0\.\d.% of the cobalt/);
  });

  test('is found whatever the capitals of its label', () => {
    const log = SCENARIO.procedure.map((action, i) => (i === CHANGE ? label(' Cobalt') : action));
    expect(told(log).kept?.label).toBe(' Cobalt');
    expect(told(log).holds.recovered).toBeGreaterThan(0.9);
  });

  test('is under other names the one with most cobalt beyond what it has of nickel', () => {
    const log = SCENARIO.procedure.map((action, i) => (i === CHANGE ? label('B') : action));
    expect(told(log).kept?.label).toBe('B');
  });

  test('is none where all of both metals dripped into one of another name', () => {
    const { kept, holds, words } = told(UNCHANGED);
    expect(kept).toBeUndefined();
    expect(holds).toEqual({ recovered: 0, carried: 0, acid_mmol: 0 });
    expect(words).toContain('No cobalt(II) has been collected apart from the rest');
    expect(words).toContain('put a receiver of its own under the tip before the cobalt(II) leaves');
  });
});
