import { describe, expect, test } from 'vitest';
import { leanOf } from '../../../sim/history/index.ts';
import { bedSummary } from '../../../src/glass/summary.ts';
import { momentWith, scenarioWith } from './moment.ts';

const LENGTH_CM = 10;
const PLATES = 100;
const scenario = scenarioWith({ bed: { plates: PLATES, lanes: 13, length_cm: LENGTH_CM } });

/** Cobalt, the same in every cell from 1 cm to the front, 0.1 mol/L; its front lies deeper the nearer a sector is to `deepest`. */
function leaning(lean_cm: number, deepestDeg: number) {
  const front = (lane: number): number => {
    const angle = ((lane - 1) * 30 - deepestDeg) * (Math.PI / 180);
    return lane === 0 ? 5 : 5 + (lean_cm / 2) * Math.cos(angle);
  };
  const results = {
    bands: { Co: { amount_mmol: 0.18, centroid_cm: 3, trailing_cm: 1.04, leading_cm: 4.96 }, Ni: null },
    loaded: { HCl_mmol: 9, Co_mmol: 0.18, Ni_mmol: 0.22 },
  };
  const start = momentWith(scenario, (lane, plate) => {
    const depth = (plate + 0.5) * (LENGTH_CM / PLATES);
    return { HCl_M: 9, resin: { Co: depth > 1 && depth < front(lane) ? 0.1 : 0 } };
  });
  return { ...start, results: { ...start.results, ...results }, flow: 0.5, clampOpen: 1, delivered_mL: 12 };
}

describe('leanOf', () => {
  test('finds the distance between the fronts and both sides', () => {
    const lean = leanOf(leaning(2, 90), scenario, 'Co');
    // The edge encloses 99 % of a lane's cobalt, so it lies 1 % of the band above the front: 0.05 cm and 0.03 cm here.
    expect(lean?.lean_cm).toBeCloseTo(2 - 0.02, 1);
    expect([lean?.ahead_deg, lean?.behind_deg]).toEqual([90, 270]);
    const shorter = leanOf(leaning(2, 90), scenario, 'Co', 0.95 * LENGTH_CM);
    expect(shorter?.lean_cm).toBeCloseTo(0.95 * (lean?.lean_cm ?? Number.NaN), 9);
    expect(shorter?.core_cm).toBeCloseTo(0.95 * (lean?.core_cm ?? Number.NaN), 9);
  });

  test('is none for a bed of one lane', () => {
    const one = scenarioWith({ bed: { lanes: 1 } });
    expect(
      leanOf(
        momentWith(one, () => ({ resin: { Co: 0.1 } })),
        one,
        'Co',
      ),
    ).toBeUndefined();
  });
});

describe('bedSummary', () => {
  test('tells of liquid, flow, band, lean and what is gone', () => {
    expect(bedSummary(scenario, leaning(2, 90))).toBe(
      'Liquid stands 10 millimetres above the bed: water. It flows at 0.50 millilitres per minute, 12.0 millilitres delivered. ' +
        'Cobalt(II) lies 1.0 to 5.0 centimetres deep, 100 percent of it on the bed, its front leaning 2.0 centimetres: furthest down at the left, highest at the right. ' +
        'No nickel(II) on the bed.',
    );
  });

  test('calls a level front level', () => {
    expect(bedSummary(scenario, leaning(0, 0))).toContain('its front level');
  });

  test('tells how deep the bed has run dry, of gas and of missing resin', () => {
    const dry = { ...leaning(0, 0), bed_cm: LENGTH_CM, level_cm: 0, flow: 0, drained: Float64Array.from({ length: 13 }, (_, lane) => 5 + lane) };
    dry.gas.fill(0.1);
    dry.resinShare.fill(0, 0, 13);
    const text = bedSummary(scenario, dry);
    expect(text).toContain('No liquid above the bed. Nothing flows');
    expect(text).toContain('run dry from the top: 0.6 to 1.7 centimetres deep');
    // A twentieth shorter: 0.6 and 1.7 cm down the packed bed are 9.4 and 8.3 cm above its support, so 8.93 and 7.89 cm now.
    expect(bedSummary(scenario, { ...dry, bed_cm: 0.95 * LENGTH_CM })).toContain('run dry from the top: 1.1 to 2.1 centimetres deep');
    expect(text).toContain('Gas fills 10 percent of the space between the beads.');
    expect(text).toContain('Resin is missing in 1.0 percent of the bed.');
  });

  test('names a closed clamp as the reason that nothing flows', () => {
    expect(bedSummary(scenario, { ...leaning(0, 0), flow: 0, clampOpen: 0 })).toContain('The clamp is closed');
  });
});
