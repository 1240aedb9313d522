import { expect, test } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { mix } from '../../../sim/flow/mixing.ts';
import { closeTo } from '../../exact/asserts.ts';
import { stagnantMoments } from '../../exact/headspace.ts';
import { rigFor } from '../rig.ts';

/** Exchange of still liquid in the model, 1/min (estimate, 1e-3 1/s). */
const RATE = 0.06;

// Coats and Smith 1964, van Genuchten and Wierenga 1976 (recalled): still liquid acts on mean and variance like slow uptake.
test.each([
  [5, 0.25],
  [20, 0.43],
  [20, 1],
])('liquid that does not move delays and spreads a peak: %i cells, still over moving %f', (plates, ratio) => {
  const rig = rigFor({ plates, D: { Ni: 0 }, values: { 'resin.pore_L_per_L': 0.05 } });
  const { bed, column } = rig;
  bed.stillVolume.set(bed.mobile.map((volume) => volume * ratio));
  bed.scalar[AT.uneven] = 1;
  const flow = rig.holdup / 20;
  const volume = rig.holdup / plates / 40;
  const dt = volume / flow;
  let [area, first, second] = [0, 0, 0];
  for (let n = 0; n < 40 * plates * 14; n++) {
    const c = rig.step([0, n === 0 ? 1 : 0], volume, flow)[1];
    bed.scalar[AT.mixingDue] = dt;
    mix(bed, column);
    const t = (n + 0.5) * dt;
    area += c;
    first += c * t;
    second += c * t * t;
  }
  const mean = first / area - dt / 2;
  const exact = stagnantMoments(plates, rig.holdup / flow, ratio, RATE);
  closeTo('mean', mean, exact.mean, { relative: 0.01 }, 'min');
  closeTo('variance', second / area - (first / area) ** 2, exact.variance, { relative: 0.03 }, 'min²');
  expect(area).toBeCloseTo(1, 3);
});
