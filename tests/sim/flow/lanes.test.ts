import { describe, it } from 'vitest';
import vectors from '../../data/transport-vectors.json' with { type: 'json' };
import { closeTo } from '../../exact/asserts.ts';
import { momentsOf } from '../../exact/measure.ts';
import { rigFor } from '../rig.ts';

const PLATES = 600;
const BEAD_CM = 0.003;
const PECLET = 2;

/** Moments (s, s²) of an impulse shared by flow, collected as a mixed effluent; `omega` in 1/s per unit of all liquid. */
function laneMoments(f: number[], v: number[], edges: { a: number; b: number; omega: number }[], L: number) {
  const U = f.reduce((sum, share, i) => sum + share * v[i], 0);
  const split = f.map((share, i) => (share * v[i]) / U);
  // The rig is 1 cm long: its hold-up time stands for L / U. cm/min of liquid in each lane:
  const speed = v.map((value) => (value / L) * 60);
  // porosity * D * shape * dz = omega * (all liquid of a slice) with D = (mean speed) d / Pe and 1 cm² of tube.
  const dispersion = ({ a, b }: { a: number; b: number }): number => ((speed[a] + speed[b]) / 2) * (BEAD_CM / PECLET);
  const rig = rigFor({
    plates: PLATES,
    D: { Ni: 0 },
    shares: f,
    values: { 'bed.bead_um': BEAD_CM * 1e4, 'flow.Pe_transverse': PECLET },
    edges: edges.map(({ a, b, omega }) => ({ a, b, shape: (omega * 60) / dispersion({ a, b }) })),
  });
  const flow = rig.holdup / (L / U / 60);
  const volume = (0.5 * rig.holdup) / PLATES;
  const dt = (volume / flow) * 60;
  const t: number[] = [];
  const c: number[] = [];
  for (let time = 0; time < (3 * L) / Math.min(...v); time += dt) {
    c.push(rig.step([0, time === 0 ? 1 / volume : 0], volume, flow, split)[1]);
    t.push(time);
  }
  const { mean, variance } = momentsOf(t, c);
  return { mean, variance };
}

describe('lanes of unequal flow', () => {
  it.each(vectors.test_vectors.two_lane_exchange.rows)(
    'spread an unretained impulse by their speeds and exchange: omega = $omega 1/s',
    ({ f, v, omega, L, mean, var: variance }) => {
      // Two lanes with exchange: moments by matrix exponential (derived); plates of the lanes add L²/(N u²) each.
      const run = laneMoments(f, v, [{ a: 0, b: 1, omega }], L);
      closeTo('mean, s', run.mean, mean, { relative: 0.005 }, 's');
      closeTo('variance, s²', run.variance - mean ** 2 / PLATES, variance, { relative: 0.03, absolute: 25 }, 's²');
    },
  );

  it.each(vectors.test_vectors.five_lane_chain.rows)('spread along a chain of five: beta = $beta 1/s', ({ f, v, beta, L, mean, var: variance }) => {
    const edges = [0, 1, 2, 3].map((a) => ({ a, b: a + 1, omega: 0.2 * beta }));
    const run = laneMoments(f, v, edges, L);
    closeTo('mean, s', run.mean, mean, { relative: 0.005 }, 's');
    closeTo('variance, s²', run.variance - mean ** 2 / PLATES, variance, { relative: 0.03, absolute: 25 }, 's²');
  });
});
