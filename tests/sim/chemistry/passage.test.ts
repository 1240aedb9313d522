import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ION_IDS } from '../../../sim/terms/ions.ts';
import { bestParting, distributionOf, passageOf, resolutionOf } from '../../../sim/chemistry/passage.ts';
import { scenarioOf } from '../rig.ts';
import { evenly } from '../../exact/even.ts';

const SEED = 20_251_125;
const scenario = scenarioOf({ plates: 100, ions: ['Co', 'Ni', 'Mn', 'Cu', 'Zn', 'Fe3', 'Fe2', 'Cd'] });

describe('passageOf', () => {
  // Definitions of chromatography: k = time in the beads over time in the liquid, V = V0 (1 + k).
  test('gives the definitions of the retention factor back', () => {
    fc.assert(
      fc.property(evenly(0, 1e5), evenly(0.3, 0.6), (D, porosity) => {
        const { retentionFactor, bedVolumes, speedShare } = passageOf(D, porosity);
        expect(bedVolumes).toBeCloseTo(porosity * (1 + retentionFactor), 6);
        expect(speedShare * (1 + retentionFactor)).toBeCloseTo(1, 9);
      }),
      { seed: SEED },
    );
  });

  test('of a metal that is not taken up is the liquid itself', () => {
    expect(passageOf(0, 0.38)).toEqual({ D_v: 0, retentionFactor: 0, bedVolumes: 0.38, speedShare: 1 });
  });
});

describe('bestParting', () => {
  // Recalled, Moore and Kraus, J. Am. Chem. Soc. 74 (1952) 843: cobalt is held best near 9 M, nickel not at all.
  test('of nickel and cobalt lies near 9 M, nickel first', () => {
    const { HCl_M, first, ratio } = bestParting(scenario, 'Co', 'Ni');
    expect(first).toBe('Ni');
    expect(HCl_M).toBeGreaterThan(8.4);
    expect(HCl_M).toBeLessThan(9.6);
    expect(ratio).toBeGreaterThan(25);
  });

  // Recalled, Kraus and Nelson 1955: both low and nearly parallel curves; iron(II) is the weakest of the recalled curves.
  test('finds manganese and iron(II) the closest pair of all, and every other pair at least twice as far apart', () => {
    const pairs = ION_IDS.flatMap((a, i) => ION_IDS.slice(i + 1).map((b) => bestParting(scenario, a, b))).sort((a, b) => a.ratio - b.ratio);
    expect([pairs[0].first, pairs[0].second].sort()).toEqual(['Fe2', 'Mn']);
    expect(pairs[0].ratio).toBeLessThan(2);
    expect(pairs[1].ratio).toBeGreaterThan(2 * pairs[0].ratio);
  });

  test('does not depend on the order of the two', () => {
    const [there, back] = [bestParting(scenario, 'Mn', 'Cu'), bestParting(scenario, 'Cu', 'Mn')];
    expect(there).toEqual(back);
  });

  test('of two equal curves is a ratio of 1 that no number of plates parts', () => {
    const alike = {
      ...scenario,
      curves: {
        Co: [
          [1, 2],
          [12, 20],
        ],
        Ni: [
          [1, 2],
          [12, 20],
        ],
      } as const,
    };
    const { ratio, platesNeeded } = bestParting(alike, 'Co', 'Ni');
    expect(ratio).toBe(1);
    expect(platesNeeded).toBe(Number.POSITIVE_INFINITY);
  });

  // Closed form: R = sqrt(N)/4 (a - 1)/a, so the plates asked for give just the resolution asked for.
  test('asks for the plates that give a resolution of 1.5', () => {
    const { ratio, platesNeeded } = bestParting(scenario, 'Mn', 'Fe2');
    expect(resolutionOf(ratio, platesNeeded)).toBeCloseTo(1.5, 9);
  });
});

test('distributionOf takes a table of the scenario in place of the built-in curve', () => {
  const own = {
    ...scenario,
    curves: {
      Co: [
        [3, 1],
        [9, 100],
      ],
    } as const,
  };
  expect(distributionOf(own, 'Co')(9)).toBeCloseTo(100, 6);
  expect(distributionOf(own, 'Mn')(9)).toBe(distributionOf(scenario, 'Mn')(9));
});
