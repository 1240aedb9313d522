import { quantileSorted } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { classAnswer, classForecast, classTasks } from '../../../sim/class/groups.ts';
import { groupOf } from '../../../sim/class/group.ts';
import { inHands } from '../../../sim/hands/in-hands.ts';
import { distributionOf, quantileOf } from '../../../sim/class/quantiles.ts';
import { USUAL_SPREADS } from '../../../sim/class/spreads.ts';
import { washedWith, washOf } from '../../../sim/class/washed.ts';
import { readScenario } from '../../../sim/input/scenario.ts';
import type { Action } from '../../../sim/terms/types.ts';
import json from '../../../scenarios/cathode-leach.json';

/** The shipped lesson on a bed of few cells, which is quick and coarse. */
const read = readScenario({ ...json, bed: { lanes: 1, plates: 20 } }, 'cathode-leach');
if (!read.ok) throw new Error(JSON.stringify(read.issues));
const { scenario } = read;

describe('quantiles', () => {
  test('are those of definition 7: R documents quantile(1:10, 0.1) = 1.9 as its default (recalled)', () => {
    expect(quantileOf([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], 0.1)).toBeCloseTo(1.9, 12);
  });

  test('have the median of a general library, and leave out what is not there', () => {
    const values = [3.1, 0.2, 9, 4.4, undefined, 1.7, Number.NaN];
    const sorted = [0.2, 1.7, 3.1, 4.4, 9];
    expect(distributionOf(values)).toMatchObject({ n: 5, median: quantileSorted(sorted, 0.5), least: 0.2, most: 9 });
    expect(distributionOf([undefined])).toBeUndefined();
  });
});

describe('another wash', () => {
  test.each([0, 5, 25.9, 26, 28, 40, 60])('of %d mL pours just that between sample and water, and leaves the rest', (wash_mL) => {
    const log = washedWith(scenario, scenario.procedure, wash_mL);
    expect(washOf(scenario, log)?.volume_mL).toBeCloseTo(wash_mL, 9);
    const poured = (actions: readonly Action[], liquid: string) =>
      actions.reduce((sum, action) => (action.do === 'pour' && action.liquid === liquid ? sum + action.volume_mL : sum), 0);
    expect(poured(log, 'water')).toBe(poured(scenario.procedure, 'water'));
    expect(poured(log, 'sample')).toBe(1);
  });
});

describe('hands', () => {
  test('without a spread do the procedure as it is written', () => {
    expect(inHands(scenario, scenario.procedure, {}, 5)).toEqual(scenario.procedure);
  });

  test('change only what their spread is about', () => {
    const { receiver } = USUAL_SPREADS;
    const log = inHands(scenario, scenario.procedure, { receiver }, 5);
    const changed = log.filter((action, i) => JSON.stringify(action) !== JSON.stringify(scenario.procedure[i]));
    expect(changed).toEqual([{ do: 'wait', until: { more_mL: expect.any(Number) } }]);
  });
});

describe('a class', () => {
  test('is the same for the same seed, and without spreads every group is the same', () => {
    expect(groupOf(scenario, 3, {})).toEqual(groupOf(scenario, 8, {}));
    expect(classAnswer(scenario, { n: 2 })).toEqual(classAnswer(scenario, { n: 2 }));
    expect(classAnswer(scenario, { n: 2 })).not.toEqual(classAnswer(scenario, { n: 3 }));
  });

  // 9 M acid carries the band about as far again in the second 20 mL (constant speed of a band in one eluent), and a longer wash carries it deeper.
  test('sees the band move on with the acid, and shares of variance that belong to their causes', () => {
    const tasks = classTasks(4).filter(({ alone }) => alone === undefined || alone === 'receiver' || alone === 'bead');
    const forecast = classForecast(
      scenario,
      tasks,
      tasks.map((task) => classAnswer(scenario, task)),
    );
    const { depths, shares, procedures } = forecast;
    expect(forecast.groups).toBe(4);
    expect(depths.leading_40_cm?.least).toBeGreaterThan(depths.leading_20_cm?.most ?? 0);
    expect(shares.leading_20_cm?.receiver).toBe(0);
    expect(shares.leading_20_cm?.bead).toBeGreaterThan(0);
    // When the receiver is changed decides how much acid comes along; the beads do not.
    expect(shares.acid_mmol?.receiver).toBeGreaterThan(0.2);
    expect(shares.acid_mmol?.bead).toBeLessThan(0.01);
    expect(procedures.forty.wash_mL?.median).toBeGreaterThan(procedures.written.wash_mL?.median ?? 0);
  });
});
