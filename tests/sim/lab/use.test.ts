import { beforeAll, describe, expect, test } from 'vitest';
import { classPlan } from '../../../sim/class/classplan.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { columnTimes, groupUse } from '../../../sim/lab/index.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import type { Plan } from '../../../sim/history/index.ts';
import { small } from '../../src/store/rig.ts';

describe('a column run as a part of the period', () => {
  let scenario: Scenario;
  let plan: Plan;
  let planner: Planner;
  beforeAll(() => {
    scenario = small();
    planner = new Planner(scenario);
    plan = planner.plan(scenario.procedure);
  });

  test('takes as long as its four phases together', () => {
    const times = columnTimes(scenario, plan);
    const total = times && Object.values(times).reduce((sum, minutes) => sum + minutes, 0);
    expect(total).toBeCloseTo(plan.logEnd.time_min, 9);
  });

  test('is loaded when the sample is poured and stripped from the first water', () => {
    const times = columnTimes(scenario, plan);
    const poured = (liquid: string): number => plan.events.find(({ action }) => action?.do === 'pour' && action.liquid === liquid)?.time_min ?? Number.NaN;
    expect(times?.condition_min).toBeCloseTo(poured('sample'), 9);
    expect(times?.strip_min).toBeCloseTo(plan.logEnd.time_min - poured('water'), 9);
  });

  test('has no times while a phase is missing', () => {
    expect(columnTimes(scenario, new Planner(scenario).plan(scenario.procedure.slice(0, 6)))).toBeUndefined();
  });

  test('uses what its log pours, once for every aliquot', () => {
    // 25 mL to condition, 1 mL sample, 26 mL to rinse and wash; 30 mL water: the scenario's procedure, added up by hand.
    const use = groupUse(scenario, scenario.procedure, 3, undefined);
    expect(use.acid_mL).toBeCloseTo(3 * 52, 9);
    expect(use.water_mL).toBeCloseTo(3 * 30, 9);
    expect(use.sample_mL).toBeCloseTo(3, 9);
  });

  test('asks for NaOH, titrations and acetic acid for each sample that is collected, whether it is run again or stands in the log', () => {
    const [one, three] = [1, 3].map((aliquots) => groupUse(scenario, scenario.procedure, aliquots, undefined));
    const inOneLog = groupUse(scenario, [...scenario.procedure, ...scenario.procedure, ...scenario.procedure], 1, undefined);
    for (const use of [three, inOneLog]) {
      expect(use.NaOH_mL).toBeCloseTo(3 * one.NaOH_mL, 9);
      expect(use.acetic_mL).toBeCloseTo(3 * one.acetic_mL, 9);
      expect(use.titrations).toBe(3 * one.titrations);
    }
    expect(inOneLog.portion_mL).toBeCloseTo(one.portion_mL, 9);
  });

  test('makes a class plan whose stock dilutes to the acid that is needed', () => {
    const { supplies } = classPlan(8, groupUse(scenario, scenario.procedure, 3, undefined));
    const [acid, stock] = supplies;
    // 12.1 mol/L as labelled, amounts of acid in and out are the same.
    expect((stock?.amount ?? 0) * 12.1).toBeCloseTo((acid?.amount ?? 0) * 9, 6);
  });
});
