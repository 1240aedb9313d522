import { describe, test } from 'vitest';
import vectors from '../data/transport-vectors.json' with { type: 'json' };
import { closeTo, type Closeness } from './asserts.ts';
import {
  apexOf,
  asymmetryOf,
  crossingOf,
  momentsOf,
  passageOf,
  platesFromBaseWidth,
  platesFromHalfWidth,
  platesFromMoments,
  resolutionFromBase,
  resolutionFromPlates,
  tailingOf,
} from './measure.ts';
import {
  craigShare,
  discreteTransfer,
  equalImpurityCut,
  gammaCdf,
  gammaPdf,
  gammaPeak,
  platesOfExplicitStep,
  rectangularFeed,
  slowPlatesCdf,
  slowPlatesCumulants,
  slowPlatesPdf,
} from './plates.ts';

const { test_vectors: given } = vectors;
const EXACT: Closeness = { relative: 1e-10, absolute: 1e-14 };

describe('N stirred plates', () => {
  test.each(given.gamma_effluent.rows)('N = $N at $x retention volumes give the gamma density', ({ N, x, pdf, cdf }) => {
    closeTo('density', gammaPdf(N, x), pdf, EXACT);
    closeTo('share eluted', gammaCdf(N, x), cdf, EXACT);
  });

  test.each(given.gamma_rect_pulse.rows)('N = $N fed for $vs show at $x the difference of two fronts', ({ N, vs, x, c_over_c0 }) =>
    closeTo('c/c0', rectangularFeed(N, vs, x), c_over_c0, EXACT),
  );

  test.each(given.gamma_peak_metrics.rows)('N = $N make a peak of known widths', (row) => {
    const peak = gammaPeak(row.N);
    closeTo('maximum at', peak.at, row.x_max, EXACT);
    closeTo('height', peak.height, row.height, EXACT);
    closeTo('half width', peak.half.width, row.w_half, EXACT);
    closeTo('width at 60.7 %', peak.turn.width, row.w_0607, EXACT);
    closeTo('tangent base', peak.tangentBase, row.w_base_tangent, EXACT);
    closeTo('width at 5 %', peak.five.width, row.w_005, EXACT);
    closeTo('width at 10 %', peak.ten.width, row.w_010, EXACT);
    closeTo('tailing at 5 %', peak.tailing, row.tailing_005, EXACT);
    closeTo('asymmetry at 10 %', peak.asymmetry, row.asym_010, EXACT);
    closeTo('asymmetry at 5 %', asymmetryOf(peak.five, peak.at), row.asym_005, EXACT);
    closeTo('plates from half width', peak.platesHalf, row.N_half_5545, EXACT);
    closeTo('plates from base width', peak.platesBase, row.N_base_16, EXACT);
    closeTo('plates from width at 60.7 %', peak.platesTurn, row.N_4_0607, EXACT);
    closeTo('skew', peak.skew, row.skew, EXACT);
    closeTo('excess', peak.excess, row.exkurt, EXACT);
  });

  test.each(given.two_peak_equal_impurity_cut.rows)('N = $N part k = $k1 from k = $k2 at a known cut', ({ N, k1, k2, v_cut_over_Vm, impurity }) => {
    const cut = equalImpurityCut(N, k1, k2);
    closeTo('cut', cut.volume, v_cut_over_Vm, { relative: 1e-9 }, 'hold-up volumes');
    closeTo('impurity', cut.impurity, impurity, { relative: 1e-8 });
  });
});

describe('stepwise transfer', () => {
  test.each(given.discrete_transfer.rows)('through N = $N, k = $k, Courant $courant is negative binomial at step $step', (row) => {
    const { inStep, cumulative } = discreteTransfer(row.N, row.k, row.courant, row.step);
    closeTo('leaving in the step', inStep, row.eluted_in_step, EXACT);
    closeTo('left until its end', cumulative, row.cum_eluted, EXACT);
  });

  test.each(given.craig_binomial.rows)('of all liquid $n times puts a binomial share into plate $r', ({ k, n, r, frac }) =>
    closeTo('share', craigShare(k, n, r), frac, EXACT),
  );

  test.each(given.apparent_plates_explicit_upwind.rows)(
    'shows more plates than the $N_cells cells at Courant $courant',
    ({ N_cells, k, courant, N_apparent }) => {
      closeTo('plates by formula', platesOfExplicitStep(N_cells, k, courant), N_apparent, EXACT);
      closeTo('plates by moments of the steps', stepwisePlates(N_cells, k, courant), N_apparent, { relative: 1e-6 });
    },
  );
});

describe('N plates with slow uptake', () => {
  test.each(given.plates_with_ldf.rows)('N = $N, k = $k, kL = $kL at $t s', ({ N, t0, k, kL, t, E, F, mean, var: variance, kappa3, N_apparent }) => {
    const plates = { N, t0, k, kL };
    const cumulants = slowPlatesCumulants(plates);
    closeTo('E', slowPlatesPdf(plates, t), E, { relative: 1e-8, absolute: 1e-15 }, '1/s');
    closeTo('F', slowPlatesCdf(plates, t), F, { relative: 1e-9, absolute: 1e-12 });
    closeTo('mean', cumulants.mean, mean, EXACT, 's');
    closeTo('variance', cumulants.variance, variance, EXACT, 's²');
    closeTo('third cumulant', cumulants.third, kappa3, EXACT, 's³');
    closeTo('apparent plates', platesFromMoments(cumulants), N_apparent, EXACT);
  });
});

describe('a sampled curve', () => {
  const N = 25;
  const at = Float64Array.from({ length: 6001 }, (_, i) => i / 2000);
  const value = at.map((x) => gammaPdf(N, x));
  const peak = gammaPeak(N);

  test('gives back moments and widths of the gamma density', () => {
    const moments = momentsOf(at, value);
    const apex = apexOf(at, value);
    closeTo('area', moments.area, 1, { relative: 1e-9 });
    closeTo('mean', moments.mean, 1, { relative: 1e-9 });
    closeTo('variance', moments.variance, 1 / N, { relative: 1e-7 });
    closeTo('skew', moments.skew, 2 / Math.sqrt(N), { relative: 1e-5 });
    closeTo('apex', apex.at, peak.at, { relative: 1e-6 });
    closeTo('height', apex.height, peak.height, { relative: 1e-8 });
    closeTo('half width', crossingOf(at, value, 0.5).width, peak.half.width, { relative: 1e-6 });
    closeTo('tailing', tailingOf(crossingOf(at, value, 0.05), apex.at), peak.tailing, { relative: 1e-5 });
    closeTo('plates', platesFromHalfWidth(apex.at, crossingOf(at, value, 0.5).width), peak.platesHalf, { relative: 1e-5 });
  });

  test('passes a level where its inverse says', () =>
    closeTo(
      '50 % point',
      passageOf(
        at,
        at.map((x) => 1 - Math.exp(-x)),
        0.5,
      ),
      Math.LN2,
      { relative: 1e-6 },
    ));
});

// Harris, Quantitative Chemical Analysis; Skoog, West, Holler, Crouch, Fundamentals of Analytical Chemistry (both recalled).
describe('textbook examples', () => {
  test('407 s, 13 s wide, 12.2 m: 1.57e4 plates of 0.78 mm, resolved 1.17 from 424 s, 16 s wide', () => {
    const N = platesFromBaseWidth(407, 13);
    closeTo('N', N, 1.57e4, { absolute: 50 });
    closeTo('H', 12200 / N, 0.78, { absolute: 0.005 }, 'mm');
    closeTo('Rs', resolutionFromBase(407, 13, 424, 16), 1.17, { absolute: 0.005 });
  });

  test('16.40 and 17.63 min, 1.11 and 1.21 wide: resolution 1.06, 3493 and 3397 plates', () => {
    closeTo('Rs', resolutionFromBase(16.4, 1.11, 17.63, 1.21), 1.06, { absolute: 0.005 });
    closeTo('N1', platesFromBaseWidth(16.4, 1.11), 3493, { absolute: 1 });
    closeTo('N2', platesFromBaseWidth(17.63, 1.21), 3397, { absolute: 1 });
  });

  test.each(given.purnell)('N = $N, alpha = $alpha, k2 = $k2 resolve as Purnell says', ({ N, k2, alpha, Rs }) =>
    closeTo('Rs', resolutionFromPlates(N, alpha, k2), Rs, EXACT),
  );
});

/** mean²/variance of the number of steps, by actually moving liquid. */
function stepwisePlates(N: number, k: number, courant: number): number {
  const p = courant / (1 + k);
  const plate = new Float64Array(N);
  plate[0] = 1;
  const [steps, left]: [number[], number[]] = [[], []];
  for (let step = 1, remaining = 1; remaining > 1e-14; step++) {
    steps.push(step);
    left.push(p * plate[N - 1]);
    for (let j = N - 1; j > 0; j--) plate[j] += p * (plate[j - 1] - plate[j]);
    plate[0] *= 1 - p;
    remaining = plate.reduce((sum, amount) => sum + amount, 0);
  }
  const mean = left.reduce((sum, amount, i) => sum + amount * steps[i], 0);
  const variance = left.reduce((sum, amount, i) => sum + amount * (steps[i] - mean) ** 2, 0);
  return (mean * mean) / variance;
}
