import { describe, it } from 'vitest';
import { curveParts, resinFrom } from '../../../sim/chemistry/uptake.ts';
import { curvesClose } from '../../exact/asserts.ts';
import { referenceRun } from '../../exact/reference-column.ts';
import { rigFor } from '../rig.ts';

// The same small column integrated by odex (Hairer's ODEX, a general-purpose extrapolation code) from its own equations.
const PLATES = 12;
const FLOW = 0.6;
const SHARES = [0.7, 0.3];
const SPLIT = [0.62, 0.38];
const SHAPE = 1.5;
/** mol/L: HCl, Co, Ni. Sample in 9 M acid, acid, then water. */
const INFLOW = [
  { from: 0, c: [9, 0.1, 0.12] },
  { from: 1, c: [9, 0, 0] },
  { from: 6, c: [0, 0, 0] },
];
const END = 12;

describe('a small column with an eluent switch', () => {
  it('agrees with a general-purpose integrator to 1e-4 of each peak', () => {
    const rig = rigFor({
      plates: PLATES,
      ions: ['Co', 'Ni'],
      shares: SHARES,
      edges: [{ a: 0, b: 1, shape: SHAPE }],
      values: { 'bench.start_HCl_M': 9, 'flow.Pe_transverse': 5, 'bed.bead_um': 300 },
      bead: [0.05, 0.3, 0.2],
      film: 0.004,
    });
    const { column, bed } = rig;
    const volume = rig.holdup / PLATES / 800;
    const samples: number[] = [];
    const model: number[][] = [[], [], []];
    for (let V = 0, i = 0; V < END * FLOW; V += volume, i++) {
      const middle = (V + volume / 2) / FLOW;
      const inflow = INFLOW.findLast(({ from }) => middle >= from) ?? INFLOW[0];
      const out = rig.step(inflow.c, volume, FLOW, SPLIT);
      if (i % 40 !== 20) continue;
      samples.push(middle);
      model.forEach((curve, k) => curve.push(out[k]));
    }
    const resin = resinFrom(column.scenario.values);
    const velocity = SPLIT.map((share, i) => (FLOW * share) / column.lanes.area[i]);
    const speed = (velocity[0] + velocity[1]) / 2 / column.porosity;
    const G = column.porosity * ((speed * 0.03) / 5) * SHAPE * column.dz;
    const lanes = SHARES.map((_, i) => ({
      m: bed.mobile[i * PLATES],
      V: column.cellVolume[i],
      Q: FLOW * SPLIT[i],
      b: column.film / Math.max(2, column.sherwood * Math.cbrt(velocity[i])),
    }));
    const metal = (ion: 'Co' | 'Ni', a: number, z: number) => ({
      a,
      z,
      D0: (c: number) => curveParts(ion, c, resin).coion,
      De: (c: number) => curveParts(ion, c, resin).exchange,
    });
    const reference = referenceRun({
      plates: PLATES,
      lanes,
      exchanges: [{ a: 0, b: 1, G }],
      acid: { P: resin.pore, Qf: resin.Q, kappa: resin.kappa, a: 0.05, last: 0.1 },
      metals: [metal('Co', 0.3, 2), metal('Ni', 0.2, 0)],
      capacity: column.capacity,
      inflow: INFLOW,
      sampleAt: samples,
      end: END,
      start: [9, 0, 0],
    });
    reference.outlet.forEach((expected, k) => {
      const peak = Math.max(...expected);
      curvesClose(['HCl', 'Co', 'Ni'][k], samples, model[k], expected, { absolute: 1e-4 * peak }, { at: 'min', value: 'mol/L' });
    });
  });
});
