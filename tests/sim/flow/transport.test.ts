import { describe, expect, it } from 'vitest';
import { closeTo } from '../../exact/asserts.ts';
import { apexOf, crossingOf, momentsOf, platesFromBaseWidth, platesFromHalfWidth, platesFromMoments, tailingOf } from '../../exact/measure.ts';
import { gammaPdf, gammaPeak, rectangularFeed, slowPlatesCumulants, slowPlatesPdf } from '../../exact/plates.ts';
import { thomas } from '../../exact/fronts.ts';
import { slowColumnCdf } from '../../exact/advection.ts';
import vectors from '../../data/transport-vectors.json' with { type: 'json' };
import { type Rig, rigFor } from '../rig.ts';

const POROSITY = 0.38;

/** Effluent of an impulse into the first plate, as it leaves: x in retention volumes, C V_R / m. */
function impulse(rig: Rig, k: number, courant: number): { x: number[]; y: number[] } {
  const { bed, column } = rig;
  const cells = bed.lanes * bed.plates;
  const VR = rig.holdup * (1 + k);
  // One unit in the first plate, in equilibrium between liquid and beads.
  const c = 1 / (rig.holdup / bed.plates / 1) / (1 + k);
  bed.pore[cells] = c;
  bed.sorbed[cells] = c * k * POROSITY;
  bed.grip[0] = k * POROSITY;
  bed.first[0] = 0;
  bed.last[0] = 0;
  const volume = (courant * rig.holdup) / bed.plates;
  const x: number[] = [];
  const y: number[] = [];
  const total = column.cellVolume[0] * (POROSITY * c + bed.sorbed[cells]);
  for (let V = 0; V < 4 * VR; V += volume) {
    const out = rig.step([0, 0], volume, 1);
    x.push((V + volume / 2) / VR);
    y.push((out[1] * VR) / total);
  }
  return { x, y };
}

describe('equal plates with a linear isotherm', () => {
  // Martin and Synge 1941, Biochem. J. 35, 1358; continuous form as a gamma curve: Scott, and derived.
  const cases = [10, 25, 100].flatMap((N) => [0, 2, 20].map((k) => [N, k] as const));
  it.each(cases)('give the gamma curve to 0.1 %% of the peak: N = %d, k = %d', (N, k) => {
    const { x, y } = impulse(rigFor({ plates: N, D: { Ni: k * POROSITY } }), k, k === 0 ? 0.02 : 0.1);
    const { height } = gammaPeak(N);
    for (let i = 0; i < x.length; i++) closeTo(`effluent at x = ${x[i]}`, y[i], gammaPdf(N, x[i]), { absolute: 1e-3 * height });
  });

  it.each([0.1, 0.5, 1, 1.9])('keep the plate count at Courant number %d', (courant) => {
    // Mean and variance of the gamma curve: N = mean²/variance (derived). The explicit step would give N / (1 - p).
    const { x, y } = impulse(rigFor({ plates: 25, D: { Ni: 2 * POROSITY } }), 2, courant);
    const moments = momentsOf(x, y);
    // The impulse is there at the start of the first step, not spread over it: its variance lacks step²/4 (derived).
    const step = x[1] - x[0];
    closeTo('plates from moments', platesFromMoments({ mean: moments.mean, variance: moments.variance + step ** 2 / 4 }), 25, { relative: 1e-3 });
    closeTo('mean', moments.mean, 1, { relative: 1e-3 });
  });

  it('keep mean and plate count of a held band at six cells of liquid a step', () => {
    const { x, y } = impulse(rigFor({ plates: 25, D: { Ni: 66 * POROSITY } }), 66, 6);
    const moments = momentsOf(x, y);
    const step = x[1] - x[0];
    closeTo('plates from moments', platesFromMoments({ mean: moments.mean, variance: moments.variance + step ** 2 / 4 }), 25, { relative: 1e-3 });
    closeTo('mean', moments.mean, 1, { relative: 1e-3 });
  });

  it.each([3, 6, 50])('lose nothing and hold nothing negative when %d cells of liquid pass what is not held', (courant) => {
    const rig = rigFor({ plates: 20, D: { Ni: 0.1 } });
    const volume = (courant * rig.holdup) / 20;
    let left = 0;
    let fed = 0;
    for (let i = 0; i < 60; i++) {
      const c = i < 2 ? 1 : 0;
      fed += c * volume;
      left += rig.step([c, c], volume, 1)[1] * volume;
      expect(Math.min(...rig.bed.pore, ...rig.bed.sorbed)).toBeGreaterThanOrEqual(0);
    }
    closeTo('what left', left, fed, { relative: 1e-9 }, 'mmol');
  });

  it.each(vectors.test_vectors.gamma_peak_metrics.rows.filter(({ N }) => N === 10 || N === 25 || N === 100))(
    'have the tailing and widths of the gamma curve: N = $N',
    (row) => {
      const { x, y } = impulse(rigFor({ plates: row.N, D: { Ni: 2 * POROSITY } }), 2, 0.05);
      const apex = apexOf(x, y);
      closeTo('maximum', apex.at, row.x_max, { relative: 2e-3 });
      // USP <621> and Ph. Eur. 2.2.46 symmetry factor: w0.05/(2 f).
      closeTo('tailing at 5 %', tailingOf(crossingOf(x, y, 0.05), apex.at), row.tailing_005, { relative: 5e-3 });
      closeTo('N from half width', platesFromHalfWidth(apex.at, crossingOf(x, y, 0.5).width), row.N_half_5545, { relative: 5e-3 });
      expect(platesFromBaseWidth(apex.at, row.w_base_tangent)).toBeCloseTo(row.N_base_16, 1);
    },
  );

  it('pass a rectangular feed as the difference of two gamma integrals', () => {
    const rig = rigFor({ plates: 25, D: { Ni: 0 } });
    const volume = (0.05 * rig.holdup) / 25;
    let V = 0;
    for (; V < 2.2 * rig.holdup; V += volume) {
      const out = rig.step([0, V < 0.5 * rig.holdup - 1e-9 ? 1 : 0], volume, 1);
      closeTo(`C/C0 at V = ${V}`, out[1], rectangularFeed(25, 0.5, (V + volume / 2) / rig.holdup), { absolute: 2e-3 });
    }
  });
});

describe('plates with slow exchange', () => {
  it.each(vectors.test_vectors.plates_with_ldf.rows.slice(0, 18))(
    'follow the linear-driving-force plates: N = $N, k = $k, kL = $kL 1/s, t = $t s',
    ({ N, t0, k, kL, t, E }) => {
      const { pdf } = slowImpulse(N, t0, k, kL, [t]);
      const peak = slowPlatesPdf({ N, t0, k, kL }, t0 * (1 + k) * 0.8);
      closeTo('effluent, 1/s', pdf[0], E, { absolute: 2e-3 * Math.max(peak, E) });
    },
  );

  it('keep mean and variance at a large step', () => {
    const spec = { N: 20, t0: 450, k: 3, kL: 0.02 };
    const exact = slowPlatesCumulants(spec);
    const { t, E } = slowImpulse(spec.N, spec.t0, spec.k, spec.kL, [], 1.5);
    const moments = momentsOf(t, E);
    closeTo('mean, s', moments.mean, exact.mean, { relative: 2e-3 });
    closeTo('variance, s²', moments.variance, exact.variance, { relative: 5e-3 });
  });

  it.each(vectors.test_vectors.lapidus_amundson.rows.filter(({ k }) => k <= 3))(
    'approach dispersion with slow exchange when plates are many: L = $L, k = $k, t = $t s',
    ({ L, v, D, k, kL, t, F }) => {
      // Lapidus and Amundson 1952, J. Phys. Chem. 56, 984. N = vL/(2D) plates have the same first two moments.
      const N = Math.round((v * L) / (2 * D));
      const { cdf } = slowImpulse(N, L / v, k, kL, [t], 0.2);
      closeTo('share eluted', cdf[0], F, { absolute: 4e-3 });
      closeTo('closed form against its vector', slowColumnCdf({ L, v, D, k, kL }, t), F, { absolute: 1e-6 });
    },
  );

  it.each(vectors.test_vectors.thomas.rows.filter(({ N, r, T }) => (N === 5 || N === 10 || N === 20) && r < 1 && T >= 0.8 && T <= 1.2))(
    'follow the Thomas curve: r = $r, N = $N, T = $T',
    ({ r, N, NT, X }) => {
      // Thomas 1944, J. Am. Chem. Soc. 66, 1664. Here z = 1: dq/dt = kL (D c (1 - theta) - q) = ka (c (qm - q) - q/b), ka = kL b.
      closeTo('closed form against its vector', thomas(r, N, NT), X, { absolute: 1e-6 });
      closeTo('breakthrough', breakthrough(r, N, NT), X, { absolute: 4e-3 });
    },
  );
});

/** Impulse through N plates with exchange rate kL; time in s, hold-up time t0 in s. */
function slowImpulse(N: number, t0: number, k: number, kL: number, at: number[], courant = 0.1): { t: number[]; E: number[]; pdf: number[]; cdf: number[] } {
  const rig = rigFor({ plates: N, D: { Ni: k * POROSITY }, bead: [NOT_SLOW_MIN, 1 / kL / 60] });
  const flow = rig.holdup / (t0 / 60);
  const volume = (courant * rig.holdup) / N;
  const dt = (volume / flow) * 60;
  const t: number[] = [];
  const E: number[] = [];
  const sum: number[] = [];
  const end = Math.max(...at, at.length ? 0 : t0 * (1 + k) * 4);
  for (let time = 0, total = 0; time < end + dt; time += dt) {
    // One unit enters during the first step, on average in its middle: time counts from there.
    const out = rig.step([0, time === 0 ? 1 / volume : 0], volume, flow)[1];
    t.push(time);
    E.push((out * flow) / 60);
    total += out * volume;
    sum.push(total);
  }
  const between = (xs: number[], ys: number[], x: number): number => {
    const i = Math.max(
      1,
      xs.findIndex((value) => value >= x),
    );
    return ys[i - 1] + ((x - xs[i - 1]) / (xs[i] - xs[i - 1])) * (ys[i] - ys[i - 1]);
  };
  return {
    t,
    E,
    pdf: at.map((x) => between(t, E, x)),
    cdf: at.map((x) =>
      between(
        t.map((value) => value + dt / 2),
        sum,
        x,
      ),
    ),
  };
}

const NOT_SLOW_MIN = 1e-9;
/** Cells enough that their own spreading is below the tolerance of the comparison with plug flow. */
const PLUG_PLATES = 1000;

/** Effluent over feed at throughput NT for a favourable isotherm, by the model. */
function breakthrough(r: number, N: number, NT: number): number {
  const c0 = 0.01;
  const b = (1 / r - 1) / c0;
  const capacity = 0.05;
  const D = capacity * b;
  // N = (D/porosity) kL t0 and NT = kL (1 + b c0) (t - t0), with q per bed volume.
  const flow = 1;
  const rig0 = rigFor({ plates: 4 });
  const t0 = rig0.holdup / flow;
  const kL = N / ((D / POROSITY) * t0);
  const rig = rigFor({ plates: PLUG_PLATES, ions: ['Fe3'], D: { Fe3: D }, capacity, bead: [NOT_SLOW_MIN, 1 / kL] });
  const end = t0 + NT / (kL * (1 + b * c0));
  const volume = (0.5 * rig.holdup) / PLUG_PLATES;
  let before = 0;
  let out = 0;
  let t = 0;
  for (; t < end; t += volume / flow) {
    before = out;
    out = rig.step([0, c0], volume, flow)[1];
  }
  // Step means stand for the middle of their steps.
  const back = (t - volume / flow / 2 - end) / (volume / flow);
  return (out - back * (out - before)) / c0;
}
