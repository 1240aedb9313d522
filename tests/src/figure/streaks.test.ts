import { describe, expect, test } from 'vitest';
import { streakRamp } from '../../../sim/colour/ramp.ts';
import { framesOfColumns, inksOf, rampTops, streaksInto } from '../../../src/figure/streaks/streaks.ts';
import { deliveredOf, firstDifference, movedEluent, type Plan, profilesOf } from '../../../sim/history/index.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { PALETTE } from '../../../src/ui/look/palette.ts';
import { wholeRun } from './runs.ts';

const { scenario, plan } = wholeRun('cathode-leach');
const END_ML = 70;
const COLUMNS = 350;

describe.each(['light', 'dark'] as const)('on a %s page', (theme) => {
  const inks = inksOf(['HCl', ...plan.ions], theme);
  const cell = (HCl: number, Co: number, Ni: number): number[] => {
    const pixels = new Uint8ClampedArray(4);
    streaksInto(pixels, oneCell([HCl, Co, Ni]), Int32Array.of(0), inks, [10, 1, 1]);
    return [...pixels];
  };

  test('an ion alone has the colour of its numeric ramp at the square root of its share', () => {
    for (const share of [0, 0.1, 0.35, 1]) {
      const expected = streakRamp('Co', theme, Math.sqrt(share), PALETTE[theme].paper).map((channel) => Math.round(channel * 255));
      cell(0, share, 0)
        .slice(0, 3)
        .forEach((channel, c) => expect(Math.abs(channel - (expected[c] ?? 0))).toBeLessThanOrEqual(2));
    }
  });

  test('two ions in one place differ from either alone', () => {
    const distance = (a: number[], b: number[]): number => Math.hypot(...a.slice(0, 3).map((channel, c) => channel - (b[c] ?? 0)));
    expect(distance(cell(0, 0.5, 0.5), cell(0, 0.5, 0))).toBeGreaterThan(40);
    expect(distance(cell(0, 0.5, 0.5), cell(0, 0, 0.5))).toBeGreaterThan(40);
  });

  test('repainting from the first changed column gives the same picture as painting it all', () => {
    const entry = plan.events.find(({ action }) => action?.do === 'pour' && action.liquid === 'water')?.entry ?? -1;
    const planner = new Planner(scenario);
    // Two moves of one drag: both logs pour by volume, so that they take the same steps until the water.
    const from = planner.plan(movedEluent(plan.log, plan.events, entry, 44));
    const other = planner.plan(movedEluent(plan.log, plan.events, entry, 42));
    const tops = rampTops(scenario, from);
    const patched = painted(from, inks, tops);
    const frames = framesOfColumns(other, COLUMNS, END_ML);
    const before = framesOfColumns(from, COLUMNS, END_ML);
    const same = firstDifference(from, other);
    const first = frames.findIndex((frame, x) => frame !== before[x] || frame >= same);
    expect(first).toBeGreaterThan(COLUMNS / 2);
    streaksInto(patched, other, frames, inks, tops, first);
    expect(differing(patched, painted(other, inks, tops))).toBe(0);
  });
});

test('framesOfColumns(...) shows the last frame at or before the middle of each column, and nothing beyond the run', () => {
  const frames = framesOfColumns(plan, COLUMNS, END_ML);
  const delivered = (frame: number): number => (frame < plan.count ? deliveredOf(plan, frame) : Number.NaN);
  frames.forEach((frame, x) => {
    const middle = ((x + 0.5) / COLUMNS) * END_ML;
    if (frame < 0) expect(middle).toBeGreaterThan(delivered(plan.count - 1));
    else expect(delivered(frame) <= middle && !(delivered(frame + 1) <= middle)).toBe(true);
  });
});

/** The trapezoidal rule may lift a cell behind a front of acid above what enters, by a few parts in 1e5. */
const OVERSHOOT = 1e-4;

test('rampTops(...) lie above everything drawn', () => {
  const tops = rampTops(scenario, plan);
  for (let frame = 0; frame < plan.count; frame++) {
    profilesOf(plan, frame).forEach((held, k) => {
      const most = Math.max(...held);
      if (most > tops[k] * (1 + OVERSHOOT)) throw new Error(`solute ${k}, frame ${frame}: ${most} above ${tops[k]}`);
    });
  }
  expect(tops[0]).toBe(Math.max(...Object.values(scenario.liquids).map(({ HCl_M }) => HCl_M)));
});

function painted(run: Plan, inks: ReturnType<typeof inksOf>, tops: readonly number[]): Uint8ClampedArray {
  const pixels = new Uint8ClampedArray(COLUMNS * run.plates * 4);
  streaksInto(pixels, run, framesOfColumns(run, COLUMNS, END_ML), inks, tops);
  return pixels;
}

/** Pixels that look different; the colour of what is transparent does not matter. */
function differing(a: Uint8ClampedArray, b: Uint8ClampedArray): number {
  const [x, y] = [new Uint32Array(a.buffer), new Uint32Array(b.buffer)];
  return x.filter((pixel, at) => pixel !== y[at] && ((a[at * 4 + 3] ?? 0) > 0 || (b[at * 4 + 3] ?? 0) > 0)).length;
}

function oneCell(values: readonly number[]): Plan {
  return { ...plan, count: 1, plates: 1, components: values.length, profiles: Float32Array.from(values) };
}
