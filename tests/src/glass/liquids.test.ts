import { describe, expect, test } from 'vitest';
import { beakerDiameter, beakerVolume, headSolution, receiverContents, tipSolution } from '../../../src/glass/scene/liquids.ts';
import { columnsOf } from '../../../src/glass/unrolled-drawing.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { momentAtStart, scenarioWith } from './moment.ts';

const scenario = scenarioWith({ bed: { plates: 20, lanes: 1 } });

describe('the liquids of a run', () => {
  const planner = new Planner(scenario);
  const { labels } = planner.plan(scenario.procedure);
  const end = planner.moment(200);

  test('add up to the amounts of the results', () => {
    const contents = receiverContents(scenario, end, labels);
    expect(contents.map(({ label }) => label)).toEqual(['nickel', 'cobalt']);
    for (const [i, { volume_mL, solution }] of contents.entries()) {
      expect(volume_mL).toBeCloseTo(end.results.receivers[i].volume_mL, 9);
      expect(volume_mL * (solution.ions.Co ?? 0)).toBeCloseTo(Number(end.results.receivers[i]['Co_mmol']), 9);
      expect(volume_mL * solution.HCl_M).toBeCloseTo(end.results.receivers[i].HCl_mmol, 9);
    }
  });

  test('leave the tip strong first and weak in the end', () => {
    expect(tipSolution(scenario, planner.moment(25)).HCl_M).toBeGreaterThan(8.5);
    expect(tipSolution(scenario, planner.moment(200)).HCl_M).toBeLessThan(0.1);
  });

  test('stand above the bed as poured', () => {
    const acid = planner.moment(5);
    expect(headSolution(scenario, acid).HCl_M).toBeLessThanOrEqual(9);
    expect(headSolution(scenario, { ...acid, headVolume: 0 })).toEqual({ HCl_M: 0, ions: {} });
  });
});

test('a receiver that was not used yet is empty', () => {
  expect(receiverContents(scenario, momentAtStart(scenario), ['a', 'b'])[1]).toEqual({ slot: 1, label: 'b', volume_mL: 0, solution: { HCl_M: 0, ions: {} } });
});

test('beakers hold all that the procedure pours', () => {
  expect(beakerVolume(scenario, momentAtStart(scenario))).toBe(100);
  expect(beakerVolume(scenario, { ...momentAtStart(scenario), delivered_mL: 101 })).toBe(250);
});

test('a beaker of 100 mL is about as wide as a low-form one', () => {
  // Low form, 100 mL: outer diameter 50 mm (ISO 3819, recalled).
  expect(beakerDiameter(100)).toBeGreaterThan(4.5);
  expect(beakerDiameter(100)).toBeLessThan(5.2);
});

describe('columnsOf', () => {
  test.each([2, 4, 5, 12, 13, 25])('covers the whole map once with the sectors of %d lanes, front in the middle', (lanes) => {
    const { strips, core, gap, sides } = columnsOf(lanes, 400);
    const map = (core?.x ?? Number.NaN) - gap;
    const covered = strips.reduce((sum, { x, width }) => sum + Math.min(map, x + width) - Math.max(0, x), 0);
    expect(covered).toBeCloseTo(map, 9);
    expect(new Set(strips.map(({ lane }) => lane)).size).toBe(lanes - 1);
    const front = strips.find(({ lane }) => lane === 1);
    expect((front?.x ?? 0) + (front?.width ?? 0) / 2).toBeCloseTo(map / 2, 9);
    const place = (side: string): number => sides.find((mark) => mark.side === side)?.x ?? Number.NaN;
    expect(place('left')).toBeLessThan(place('front'));
    expect(place('front')).toBeLessThan(place('right'));
  });

  test('is one strip for one lane', () => {
    expect(columnsOf(1, 400).strips).toHaveLength(1);
  });
});
