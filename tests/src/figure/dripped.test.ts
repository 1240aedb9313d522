import { describe, expect, test } from 'vitest';
import { highestLeaving, leavesAt } from '../../../sim/history/index.ts';
import { axisEnd } from '../../../src/figure/drawing.ts';
import { drippedRow, drippedWishes, edgeWishes, portionsOf, spokenDrips, stretchesOf } from '../../../src/figure/rows/dripped.ts';
import { placedWords } from '../../../src/figure/rows/labels.ts';
import { workedFor } from '../../../src/figure/worked.ts';
import { markup } from '../markup.ts';
import { wholeRun, workedRun } from './runs.ts';

const worked = workedRun('cathode-leach');
const { plan } = worked;
const end_mL = axisEnd(worked.scenario, plan);
const nickel_mL = highestLeaving(plan, 'Ni').delivered_mL;
const cobalt_mL = highestLeaving(plan, 'Co').delivered_mL;

test('by eye the lines round the band are explained while there is one, in as many words as have room', () => {
  const eye = (width: number) => workedFor(undefined, worked.scenario, plan, { width, height: 600, byEye: true }, end_mL);
  const said = (width: number, mL: number) => placedWords(edgeWishes(eye(width), 'Co', mL)).map(({ text }) => text);
  expect(said(900, 10)).toEqual([]);
  expect(said(900, end_mL)).toEqual([]);
  expect(said(900, nickel_mL)).toEqual([expect.stringMatching(/^line: .*half as strong in colour.*runs ahead$/)]);
  expect(said(190, nickel_mL)).toEqual(['line: half the colour']);
});

describe('what left, as it looks', () => {
  test('is told portion beside portion up to now, and nothing beyond', () => {
    for (const until_mL of [0, 0.2, 30.1, 60]) {
      const portions = portionsOf(worked, until_mL, false);
      expect(portions.at(-1)?.to_mL ?? 0).toBe(until_mL);
      for (const [i, { from_mL }] of portions.entries()) expect(from_mL).toBe(i === 0 ? 0 : portions[i - 1].to_mL);
    }
  });

  test('does not know what will be poured', () => {
    const { scenario, planner } = wholeRun('cathode-leach');
    const water = scenario.procedure.findIndex((action) => action.do === 'pour' && action.liquid === 'water');
    const before = scenario.procedure.slice(0, water);
    const other = workedFor(
      undefined,
      scenario,
      planner.plan([...before, { do: 'pour', liquid: 'sample', volume_mL: 1 }]),
      { width: 900, height: 600 },
      end_mL,
    );
    expect(portionsOf(other, nickel_mL, false)).toEqual(portionsOf(worked, nickel_mL, false));
  });

  // Cotton and Wilkinson, Advanced Inorganic Chemistry (recalled): nickel(II) green, hexaaquacobalt(II) pink.
  test('is green where nickel leaves, pink where water has freed cobalt, colourless before and after', () => {
    const words = stretchesOf(portionsOf(worked, end_mL - 5, false));
    const at = (mL: number) => words.find(({ to_mL }) => to_mL > mL)?.word;
    expect(at(nickel_mL)).toMatch(/green$/);
    expect(at(cobalt_mL + 2)).toMatch(/pink$/);
    expect([at(1), at((nickel_mL + cobalt_mL) / 2), at(end_mL - 6)]).toEqual(Array(3).fill('colourless'));
  });

  test('is shown stronger where faint colours are exaggerated', () => {
    const leastOf = (exaggerate: boolean) => Math.min(...portionsOf(worked, 60, exaggerate).flatMap(({ colour }) => colour));
    expect(leastOf(true)).toBeLessThan(leastOf(false) - 0.1);
  });

  test('is drawn from the axis to now', () => {
    const drawn = markup(drippedRow(worked, portionsOf(worked, 40, false)));
    const right = [...drawn.matchAll(/x="([\d.]+)".*? width="([\d.]+)"/g)].map(([, x, width]) => Number(x) + Number(width));
    expect(right.length).toBeGreaterThan(40);
    expect(Math.max(...right)).toBeCloseTo(worked.x(40), 1);
  });

  test('is named by what dripped last, where there is room for one word only', () => {
    const narrow = { ...worked, layout: { ...worked.layout, right: worked.layout.left + 90 } };
    const portions = portionsOf(worked, (leavesAt(plan, 'Co', 0.3) ?? Number.NaN) + 0.5, false);
    const last = stretchesOf(portions).findLast(({ word }) => word !== 'colourless')?.word;
    const named = placedWords(drippedWishes(narrow, portions)).map(({ text }) => text);
    expect(last).toMatch(/pink$/);
    expect(named[0]).toBe(last);
  });

  test('is named in the strip and in words', () => {
    const portions = portionsOf(worked, 65, false);
    const named = placedWords(drippedWishes(worked, portions)).map(({ text }) => text);
    expect(named.join(' ')).toMatch(/green.*pink|pink.*green/);
    expect(named).not.toContain('colourless');
    expect(spokenDrips(portions)).toMatch(/test tube: colourless, .*green from [\d.]+ millilitres, .*pink from/);
    expect(spokenDrips(portionsOf(worked, nickel_mL, false))).not.toContain('pink');
    expect(spokenDrips([])).toBe('');
  });
});
