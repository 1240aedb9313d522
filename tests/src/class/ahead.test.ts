import { describe, expect, test } from 'vitest';
import { type ClassAnswer, classAnswer, classForecast, classTasks, forClass } from '../../../sim/class/index.ts';
import { groupInBrief, groupOf } from '../../../sim/class/group.ts';
import { spreadsOf } from '../../../sim/class/spreads.ts';
import { washedWith } from '../../../sim/class/washed.ts';
import { wholePlan } from '../../../sim/class/whole.ts';
import { intended } from '../../../sim/column/index.ts';
import { bandOnRuler, frameAt, progressOf, targetsOf } from '../../../sim/history/index.ts';
import { readScenario } from '../../../sim/input/scenario.ts';
import { resultsOf, runWhole } from '../../../sim/run/index.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { columnsFor } from '../../../src/lab/fit/measurements.ts';
import { predicted } from '../../../src/lab/fit/predict.ts';
import { acidWords, changeRows, depthWords, doubtOf, figureRows, groupsWords, lossWords } from '../../../src/class/ahead/words.ts';
import json from '../../../scenarios/cathode-leach.json';

const GROUPS = 4;

/** The shipped lesson on a bed of few cells, with the receiver changed so many mL after the water. */
function lesson(more_mL: number): Scenario {
  const read = readScenario({ ...json, bed: { lanes: 1, plates: 20 }, bench: { hand: 0 } }, 'cathode-leach');
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const procedure = read.scenario.procedure.map((action) => (action.do === 'wait' && 'more_mL' in action.until ? { ...action, until: { more_mL } } : action));
  return forClass({ ...read.scenario, procedure });
}

/** Share of the cobalt that was poured in the receiver that the procedure means for it, straight from a whole run. */
function recoveredIn(scenario: Scenario): number {
  const { receivers, loaded } = resultsOf(runWhole(scenario));
  return Number(receivers.find(({ label }) => label === 'cobalt')?.Co_mmol) / (loaded.Co_mmol ?? Number.NaN);
}

function foreseen(scenario: Scenario) {
  const tasks = classTasks(GROUPS).filter(({ alone }) => alone === undefined || alone === 'none');
  const answers: ClassAnswer[] = tasks.map((task) => classAnswer(scenario, task));
  return { forecast: classForecast(scenario, tasks, answers), answers: answers.filter((_, i) => tasks[i].alone === undefined) };
}

describe('what a class will see', () => {
  test('is what a run comes to, where nobody differs', () => {
    for (const more_mL of [2, 8]) {
      const scenario = lesson(more_mL);
      // Group 0 has the seed of the scenario, so the column is the same and nothing else is drawn.
      const plain = {
        ...scenario,
        values: { ...scenario.values, 'differ.bead': 0, 'differ.porosity': 0, 'differ.length_cm': 0, 'differ.spread': 0, 'differ.acid_M': 0 },
      };
      expect(groupOf(plain, 0, {}).written.recovered).toBeCloseTo(recoveredIn(plain), 9);
    }
  });

  // The same column and the same 20 mL of acid, once as a class sees them and once as a calibration reads them: 26 mL to the sample, 1 mL of it.
  test('counts its depths as a calibration does, at the volume and with the ruler that it says', () => {
    const scenario = lesson(2);
    const plain = intended(scenario);
    const itself = classAnswer(scenario, { n: 0, alone: 'none' });
    const { leading_20_cm, top_20_cm: top, delivered_20_mL } = itself.depths;
    const plan = wholePlan(plain, plain.procedure);
    const at_mL = (progressOf(plain, plan.events).load_mL ?? Number.NaN) + 1 + 20;
    expect(delivered_20_mL).toBeCloseTo(at_mL, 6);
    const [reading] = predicted(plain, [{ row: 2, column: 'leading_cm', quantity: 'leading', at_mL, from_mL: 0, value: 0, deviation: 1 }]);
    expect(leading_20_cm).toBeCloseTo(reading, 9);
    // What the ruler of the bench reads instead; half a frame of 0.2 mL moves the edge by some hundredths.
    const read = bandOnRuler(plan, 'Co', frameAt(plan, at_mL))?.leading_cm ?? Number.NaN;
    expect(Math.abs(Number(leading_20_cm) + Number(top) - read)).toBeLessThan(0.04);
    const words = depthWords({ itself, spreads: spreadsOf(scenario) }).replaceAll(/\s/g, ' ');
    expect(words).toContain(`the cylinder holds ${at_mL.toFixed(1)} mL since the start of the run`);
    expect(words).toContain(`reads ${Number(top).toFixed(1)} cm more`);
    expect(columnsFor(scenario).leading_cm?.how).toContain('below the bed top as it stands then');
    expect(figureRows(foreseen(scenario).forecast)[0]).toMatchObject({
      figure: expect.stringContaining('below the bed top as it stands then'),
      itself: reading.toPrecision(3),
    });
    expect(depthWords({ itself: undefined, spreads: spreadsOf(scenario) })).toBe('');
  });

  test('says that bottles only lose acid, which moves the band of every group one way', () => {
    const scenario = lesson(2);
    const { acid } = spreadsOf(scenario);
    const itself = classAnswer(scenario, { n: 0, alone: 'none' });
    const edges = Array.from(
      { length: 12 },
      (_, i) => Number(groupInBrief(scenario, i + 1, { acid }).depths.leading_20_cm) - Number(itself.depths.leading_20_cm),
    );
    expect(Math.min(...edges)).toBeGreaterThan(-1e-6);
    expect(Math.max(...edges)).toBeGreaterThan(0.05);
    expect(depthWords({ itself, spreads: spreadsOf(scenario) })).toMatch(/bottles only lose acid/);
    expect(depthWords({ itself, spreads: { ...spreadsOf(scenario), acid: { ...acid, size: 0 } } })).not.toMatch(/bottles only lose acid/);
  });

  test('counts the groups that lose cobalt, and says the most that is lost, as their runs have it', () => {
    const { forecast, answers } = foreseen(lesson(8));
    const lost = answers.map(({ written }) => 100 * (1 - written.recovered));
    const asked = 100 * (1 - forecast.target.recovered);
    const missed = lost.filter((percent) => percent > asked).length;
    // Cobalt begins to leave 4 mL after the water: changed after 8, every group loses some.
    expect(missed).toBe(GROUPS);
    const said =
      /^If the receiver is changed as the procedure says, (\d+) of (\d+) groups lose more than ([\d.]+) % of their cobalt\(II\); the largest loss is ([\d.]+) %\.$/.exec(
        lossWords(forecast).replaceAll('\u00a0', ' ').replaceAll('\u202f', ' '),
      );
    expect(said?.slice(1, 3)).toEqual([String(missed), String(GROUPS)]);
    expect(Number(said?.[3])).toBeCloseTo(asked, 6);
    expect(Number(said?.[4])).toBeCloseTo(Math.max(...lost), 0);
  });

  test('counts the groups that collect more acid than the task allows, as their runs have it', () => {
    // Changed with the water, the receiver gets all the acid that the bed still holds; changed late, none of it.
    for (const more_mL of [0.1, 8]) {
      const { forecast, answers } = foreseen(lesson(more_mL));
      const acid = answers.map(({ written }) => written.acid_mmol);
      const limit = Number(forecast.target.acid_mmol);
      const above = acid.filter((mmol) => mmol > limit).length;
      expect(above).toBe(more_mL < 1 ? GROUPS : 0);
      const said = acidWords(forecast).replaceAll(/\s/g, ' ');
      expect(said).toBe(
        above === 0
          ? `No group collects more than the ${limit} mmol of acid that the task allows.`
          : `${above} of ${GROUPS} groups collect more than the ${limit} mmol of acid that the task allows; the most is ${Math.max(...acid).toFixed(0)} mmol.`,
      );
    }
  });

  test('says that nobody loses more than is asked where every run keeps that much', () => {
    // 10 mL of wash leave the band far above the bottom, and everything from just after the water on is collected.
    const short = lesson(0.5);
    const easy = { ...short, procedure: washedWith(short, short.procedure, 10) };
    const tasks = classTasks(GROUPS).slice(0, GROUPS);
    const answers = tasks.map(({ n }) => groupOf(easy, n, {}));
    const forecast = classForecast(easy, tasks, answers);
    expect(recoveredIn(easy)).toBeGreaterThanOrEqual(forecast.target.recovered);
    expect(Math.min(...answers.map(({ written }) => written.recovered))).toBeGreaterThanOrEqual(forecast.target.recovered);
    expect(lossWords(forecast)).toMatch(/no group loses more than/);
  });

  test('holds another wash to what it is: 40 mL, or as much as brings the edge to 5 mm above the bottom', () => {
    const { forecast, answers } = foreseen(lesson(2));
    const [, forty, stopped] = changeRows(forecast);
    expect(Number(forty.wash)).toBeGreaterThan(39);
    expect(Number(forty.wash)).toBeLessThan(41);
    const near = answers.map(({ depths }) => depths.near_mL ?? 40).sort((a, b) => a - b);
    // A cylinder is read to some tenths of a millilitre in each of the pours.
    expect(Math.abs(Number(stopped.wash) - (near[1] + near[2]) / 2)).toBeLessThan(1);
    expect(figureRows(forecast).map(({ cause }) => cause)).toEqual(Array.from({ length: 8 }, () => 'needs 10 groups or more'));
  });

  // Relative variance of a variance from n normal values is 2/(n - 1), and relative variances of a ratio add: by hand 0.23 and 0.60.
  test('knows a share to about a quarter of itself from a thousand groups, and far worse from twelve', () => {
    expect(doubtOf({ groups: 1000, groupsAlone: 40 })).toBeCloseTo(0.231, 3);
    expect(doubtOf({ groups: 12, groupsAlone: 12 })).toBeCloseTo(0.603, 3);
  });

  test('counts the groups that meet the task, by each wash', () => {
    const { forecast, answers } = foreseen(lesson(8));
    expect(forecast.met.written).toBe(0);
    const meets = (of: 'written' | 'forty' | 'stopped') => answers.filter((answer) => answer[of]?.meets).length;
    expect(changeRows(forecast).map(({ met }) => met)).toEqual([`0 of ${GROUPS}`, `${meets('forty')} of ${GROUPS}`, `${meets('stopped')} of ${GROUPS}`]);
    // Judged by hand: cobalt, nickel and acid against the limits of the task.
    const good = foreseen(lesson(2));
    const { recovered, carried, acid_mmol = 0 } = targetsOf(lesson(2));
    const byHand = good.answers.filter(({ written: one }) => one.recovered >= recovered && one.carried <= carried && one.acid_mmol <= acid_mmol).length;
    expect(good.forecast.met.written).toBe(byHand);
  });

  test('says that columns differ as the lab has it, or that it has one for all', () => {
    expect(groupsWords(lesson(2))).toMatch(/^Columns, bottles and hands differ .* as far apart as the lab says/);
    expect(groupsWords(intended(lesson(2)))).toMatch(/^This lab has one column for all\. .* a usual spread is taken/);
  });
});
