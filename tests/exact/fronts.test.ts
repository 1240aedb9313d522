import { describe, test } from 'vitest';
import vectors from '../data/transport-vectors.json' with { type: 'json' };
import { closeTo, type Closeness } from './asserts.ts';
import { anzelius, donnanFronts, donnanInternal, donnanRetention, langmuirPulse, langmuirRear, overloadShift, sweptWidth, thomas } from './fronts.ts';
import { integrate } from './quadrature.ts';

const { test_vectors: given } = vectors;
const EXACT: Closeness = { relative: 1e-10, absolute: 1e-14 };

describe('constant separation factor', () => {
  test.each(given.thomas.rows)('r = $r, N = $N, NT = $NT is the Thomas curve', ({ r, N, NT, X }) =>
    closeTo('X', thomas(r, N, NT), X, { relative: 1e-9, absolute: 1e-13 }),
  );

  test.each([
    [0.3, 6, 6],
    [2, 5, 7],
  ])('r = %f, N = %f, NT = %f agrees with stepping the equations along characteristics', (r, N, NT) => {
    closeTo('X', steppedThomas(r, N, NT, 400), thomas(r, N, NT), { absolute: 1e-5 });
  });
});

describe('linear uptake without dispersion', () => {
  test.each(given.anzelius_ldf.rows)('N = $N, NT = $NT', ({ N, NT, X, E }) => {
    closeTo('step', anzelius(N, NT).step, X, EXACT);
    closeTo('impulse', anzelius(N, NT).impulse, E, EXACT);
  });
});

describe('the ideal Langmuir pulse', () => {
  test.each(given.langmuir_riemann.rows)('b = $b, c0 = $c0 fed for $t_inj s', (row) => {
    const times = langmuirPulse(row);
    closeTo('t0', times.t0, row.t0, EXACT, 's');
    closeTo('k0', times.k0, row.k0, EXACT);
    closeTo('shock', times.shockSpeed, row.u_shock, EXACT, 'cm/s');
    closeTo('speed at c0', times.feedSpeed, row.u_char_c0, EXACT, 'cm/s');
    closeTo('speed at 0', times.zeroSpeed, row.u_char_0, EXACT, 'cm/s');
    closeTo('breakthrough', times.breakthrough, row.t_breakthrough_step, EXACT, 's');
    closeTo('plateau ends at', times.plateauEnd.x, row.x_plateau_end, EXACT, 'cm');
    closeTo('plateau ends after', times.plateauEnd.t, row.t_plateau_end, EXACT, 's');
    closeTo('load', times.load, row.loading_factor, EXACT);
    closeTo('rear ends', times.rearEnd, row.t_rear_end, EXACT, 's');
    closeTo('front', times.front.t, row.t_front, EXACT, 's');
    closeTo('front', times.front.c, row.c_front, EXACT, 'mol/L');
    closeTo('mean', times.mean, row.mean_time, EXACT, 's');
    for (const { t, c } of row.rear) closeTo(`rear at ${t} s`, langmuirRear(row, t), c, EXACT, 'mol/L');
    closeTo(
      'amount that leaves',
      integrate((t) => langmuirRear(row, t), times.front.t, times.rearEnd),
      row.c0 * row.t_inj,
      { relative: 1e-6 },
      'mol/L s',
    );
  });

  test.each(given.overload_shift.rows)('at a load of $Lf leaves early', ({ Lf, rel, bcmax }) => {
    closeTo('retention', overloadShift(Lf).retention, rel, EXACT);
    closeTo('b c', overloadShift(Lf).bc, bcmax, EXACT);
  });
});

describe('HCl in the resin', () => {
  test.each(given.donnan_hcl.rows)('at $c mol/L with ratio $gamma_ratio', ({ c, X, w, gamma_ratio, cbar_internal, q_per_L_bead, k_chord, k_slope }) => {
    const resin = { X, w, G: gamma_ratio, eps: 0.38 };
    closeTo('inside', donnanInternal(resin, c), cbar_internal, EXACT, 'mol/L');
    closeTo('per litre of bead', w * donnanInternal(resin, c), q_per_L_bead, EXACT, 'mol/L');
    closeTo('chord', donnanRetention(resin, c).chord, k_chord, EXACT);
    closeTo('slope', donnanRetention(resin, c).slope, k_slope, EXACT);
  });

  test('leaves at 1.80 hold-up volumes when water follows 9 mol/L, and arrives between 1 and 1.94', () => {
    const fronts = donnanFronts({ X: 4, w: 0.49, G: 1.2, eps: 0.38 }, 9);
    closeTo('water front', fronts.waterLeaves, 1.798, { absolute: 5e-4 }, 'hold-up volumes');
    closeTo('acid front ends', fronts.acidEnds, 1.943, { absolute: 5e-4 }, 'hold-up volumes');
  });
});

describe('an eluent front', () => {
  test.each(given.step_gradient.rows)('k = $k1 to $k2 behind a front of $k_front: $regime', ({ k1, k2, k_front, spatial_ratio, temporal_ratio_outlet }) => {
    closeTo('width in space', sweptWidth(k1, k2, k_front).space, spatial_ratio, EXACT);
    closeTo('width in time', sweptWidth(k1, k2, k_front).time, temporal_ratio_outlet, EXACT);
  });
});

/** X(N, NT) of X_z = -S, Y_T = S, S = X(1-Y) - rY(1-X), X = 1 at z = 0, Y = 0 at T = 0, by a box scheme of second order. */
function steppedThomas(r: number, N: number, NT: number, steps: number): number {
  const [dz, dT] = [N / steps, NT / steps];
  const rate = (x: number, y: number): number => x * (1 - y) - r * y * (1 - x);
  let Y = new Float64Array(steps + 1);
  let X = Float64Array.from({ length: steps + 1 }, (_, j) => Math.exp(-j * dz));
  for (let n = 0; n < steps; n++) {
    const [newX, newY] = [new Float64Array(steps + 1).fill(1), new Float64Array(steps + 1)];
    for (let j = 0; j <= steps; j++) {
      const old = rate(X[j], Y[j]);
      for (let pass = 0; pass < 4; pass++) {
        newY[j] = Y[j] + (dT / 2) * (old + rate(newX[j], newY[j]));
        if (j > 0) newX[j] = newX[j - 1] - (dz / 2) * (rate(newX[j - 1], newY[j - 1]) + rate(newX[j], newY[j]));
      }
    }
    [X, Y] = [newX, newY];
  }
  return X[steps];
}
