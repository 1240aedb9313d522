import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { bedHeightOf, frameAtTime, onRuler } from '../../../sim/history/index.ts';
import { ION_IDS } from '../../../sim/terms/ions.ts';
import { parseScenario } from '../../../sim/input/scenario.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { beadContents, beadDrawing, IONS_DRAWN } from '../../../src/why/bead/bead-drawing.ts';
import { bedDrawing } from '../../../src/why/bed/bed-drawing.ts';
import { speciesDrawing } from '../../../src/why/ion/species-drawing.ts';
import { spread, uptakeDrawing } from '../../../src/why/uptake-drawing.ts';
import { markup, sketch } from '../markup.ts';

const read = parseScenario(readFileSync('scenarios/cathode-leach.json', 'utf8'), 'cathode-leach');
if (!read.ok) throw new Error('scenario: expected a sound one');
const { scenario } = read;

describe('speciesDrawing', () => {
  test.each(['Co', 'Ni', 'Fe3', 'Zn'] as const)('of %s is as stored', (ion) => {
    expect(sketch(speciesDrawing({ ion, HCl_M: 9, width: 560, height: 300 }))).toMatchSnapshot();
  });

  test('has as many layers as the ion has species, named once', () => {
    const drawn = markup(speciesDrawing({ ion: 'Co', HCl_M: 9, width: 560, height: 300 }));
    expect(drawn.match(/class="layer"/g)).toHaveLength(3);
    expect(drawn.match(/>CoCl₄²⁻</g)).toHaveLength(1);
  });
});

describe('uptakeDrawing', () => {
  test('of two ions is as stored', () => {
    expect(sketch(uptakeDrawing({ scenario, ions: ['Co', 'Ni'], ion: 'Co', HCl_M: 9, width: 560, height: 340 }))).toMatchSnapshot();
  });

  test('of all eight names each, no two names closer than a line', () => {
    const drawn = markup(uptakeDrawing({ scenario, ions: ION_IDS, ion: 'Co', HCl_M: 9, width: 560, height: 340 }));
    const heights = [...drawn.matchAll(/class="line-label"[^>]* y="([\d.]+)"/g)].map(([, y]) => Number(y)).sort((a, b) => a - b);
    expect(heights).toHaveLength(8);
    for (let i = 1; i < heights.length; i++) expect(heights[i] - heights[i - 1]).toBeGreaterThan(18.9);
  });

  test("marks a user's own points with squares", () => {
    const own = {
      ...scenario,
      curves: {
        Co: [
          [3, 1],
          [6, 10],
          [9, 40],
        ],
      } as const,
    };
    expect(markup(uptakeDrawing({ scenario: own, ions: ['Co', 'Ni'], ion: 'Co', HCl_M: 9, width: 560, height: 340 })).match(/class="own"/g)).toHaveLength(3);
  });
});

test('spread(...) keeps order and distance and moves nothing that has room', () => {
  expect(spread([0, 50, 100], 20)).toEqual([0, 50, 100]);
  const moved = spread([10, 12, 14, 100], 20);
  for (let i = 1; i < moved.length; i++) expect(moved[i] - moved[i - 1]).toBeGreaterThanOrEqual(20 - 1e-9);
  expect(moved[3]).toBe(100);
});

describe('beadContents', () => {
  // Donnan closed form x (x + Q) = c²: c 9, Q 4.196 gives x 7.144 (by hand); D_v of cobalt 35.07 from a separate program.
  test('holds in 9 M what the closed forms give', () => {
    // 35.45 bed volumes are those of 0.63 kg of dry resin per litre of bed.
    const { fixed, invaded_M, ionInside } = beadContents({ ...scenario, values: { ...scenario.values, 'resin.curve_scale': 0.63 } }, 'Co', 9);
    expect(fixed).toBeCloseTo(1.2, 6);
    expect(invaded_M).toBeCloseTo(-4.1958 / 2 + Math.sqrt((4.1958 / 2) ** 2 + 81), 3);
    expect(ionInside).toBeCloseTo(35.07 / 35.45, 3);
  });

  test('holds no HCl and no metal inside in water', () => {
    expect(beadContents(scenario, 'Co', 0)).toMatchObject({ invaded: 0, outside: 0, ionInside: 0 });
  });
});

describe('beadDrawing', () => {
  test.each([0, 3, 9])('in %d M draws a hundred metal ions, and a chloride for every positive charge', (c) => {
    const contents = beadContents(scenario, 'Co', c);
    const drawn = markup(beadDrawing({ contents, ion: 'Co', porosity: 0.38, size: 340 }));
    const count = (name: string): number => drawn.match(new RegExp(`class="${name}"`, 'g'))?.length ?? 0;
    expect(count('metal')).toBe(IONS_DRAWN);
    expect(Math.abs(count('chloride') - count('hydrogen') - count('fixed'))).toBeLessThanOrEqual(1);
  });

  test('draws none where there are none', () => {
    const drawn = markup(beadDrawing({ contents: beadContents(scenario, 'Co', 9), ion: 'Co', porosity: 0.38, size: 340, ions: 0 }));
    expect(drawn).not.toContain('class="metal"');
    expect(drawn).toContain('class="fixed"');
  });

  test('in 3 M is as stored', () => {
    expect(sketch(beadDrawing({ contents: beadContents(scenario, 'Co', 3), ion: 'Co', porosity: 0.38, size: 340 }))).toMatchSnapshot();
  });
});

test('bedDrawing(...) draws a streak for each ion, both fronts of acid and the chosen depth', () => {
  const even = { ...scenario, values: { ...scenario.values, 'bed.lanes': 1 } };
  const plan = new Planner(even).plan(even.procedure);
  const drawn = markup(bedDrawing({ scenario: even, plan, now_min: 25, depth_cm: 2, width: 600, height: 320 }));
  expect(drawn.match(/class="streak"/g)?.length).toBeGreaterThanOrEqual(3);
  const front = /class="front" d="([^"]*)"/.exec(drawn)?.[1] ?? '';
  expect(front.match(/M/g)?.length).toBeGreaterThanOrEqual(2);
  // The axis is a ruler of 264 px: the top of the bed stands on it where the model has it, and the chosen depth below that.
  const px = (read_cm: number): number => 8 + (read_cm / plan.length_cm) * (320 - 46 - 8);
  const tops = [...(/class="bed-top" d="([^"]*)"/.exec(drawn)?.[1] ?? '').matchAll(/,([\d.]+)/g)].map(([, y]) => Number(y));
  const sunk = Math.max(...Array.from({ length: plan.count }, (_, frame) => plan.length_cm - bedHeightOf(plan, frame)));
  expect(sunk).toBeGreaterThan(0.2);
  expect(Math.max(...tops)).toBeCloseTo(px(sunk), 0);
  const chosen = Number(/class="chosen"[^>]* y1="([\d.]+)"/.exec(drawn)?.[1]);
  expect(chosen).toBeCloseTo(px(onRuler(plan, frameAtTime(plan, 25), 2)), 1);
  expect(chosen).toBeGreaterThan(px(2) + 3);
  expect(drawn).not.toContain('NaN');
});
