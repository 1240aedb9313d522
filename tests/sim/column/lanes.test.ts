import { describe, expect, it } from 'vitest';
import { parameterDefaults } from '../../../sim/terms/fields.ts';
import { lanesOf } from '../../../sim/column/lanes.ts';
import { closeTo } from '../../exact/asserts.ts';

describe('lanesOf', () => {
  const values = parameterDefaults();

  it('gives the same bed for the same seed and another for another', () => {
    expect(lanesOf(values, 7)).toEqual(lanesOf(values, 7));
    expect(lanesOf(values, 7).permeability).not.toEqual(lanesOf(values, 8).permeability);
  });

  it('fills the cross-section, joins the core to every sector and the ring to itself', () => {
    const { area, edges, angleDeg } = lanesOf(values, 1);
    closeTo(
      'area',
      area.reduce((a, b) => a + b),
      (Math.PI * 0.9 ** 2) / 4,
      { relative: 1e-12 },
      'cm²',
    );
    expect(edges.filter(({ a }) => a === 0)).toHaveLength(12);
    expect(edges.filter(({ a }) => a > 0)).toHaveLength(12);
    expect(angleDeg[4]).toBe(90);
  });

  it('gives one lane no neighbours and no spread', () => {
    const one = lanesOf({ ...values, 'bed.lanes': 1 }, 3);
    expect(one.edges).toEqual([]);
    expect(Array.from(one.permeability)).toEqual([1]);
  });

  it('shows the same loose and tight places however many lanes there are, and leaves the bed as permeable as a whole', () => {
    const spreadOf = (lanes: number, seed: number): number => {
      const { area, permeability } = lanesOf({ ...values, 'bed.lanes': lanes, 'bed.spread': 0.15 }, seed);
      const section = area.reduce((a, b) => a + b);
      const mean = permeability.reduce((sum, factor, i) => sum + (factor * area[i]) / section, 0);
      closeTo('mean permeability', mean, 1, { relative: 1e-12 });
      return Math.sqrt(permeability.reduce((sum, factor, i) => sum + ((factor - 1) ** 2 * area[i]) / section, 0));
    };
    for (const seed of [1, 2, 3, 4]) closeTo('spread of 13 lanes', spreadOf(13, seed), spreadOf(25, seed), { relative: 0.1 });
  });

  it('joins two sectors to each other along both of the edges they share, and more to the next each', () => {
    const among = (lanes: number) => lanesOf({ ...values, 'bed.lanes': lanes }, 1).edges.filter(({ a }) => a > 0);
    const [both, ...others] = among(3);
    expect([both.a, both.b, others]).toEqual([1, 2, []]);
    const outer = values['column.bore_cm'] / 2;
    const inner = outer * Math.sqrt(values['bed.core_share']);
    // Two radial faces of the ring, over half of the way round its middle.
    closeTo('shape', both.shape, (2 * (outer - inner)) / ((Math.PI * (inner + outer)) / 2), { relative: 1e-12 });
    expect(among(4)).toHaveLength(3);
  });

  it('gives the wall the factor of the scenario and leaves the core as it is', () => {
    const [plain, eased] = [1, 3].map((factor) => lanesOf({ ...values, 'bed.wall_factor': factor }, 1).permeability);
    expect(eased[0]).toBe(plain[0]);
    for (let i = 1; i < plain.length; i++) closeTo('at the wall', eased[i], 3 * plain[i], { relative: 1e-12 });
  });
});
