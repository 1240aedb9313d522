import { describe, test } from 'vitest';
import vectors from '../data/transport-vectors.json' with { type: 'json' };
import { equalSlowColumn, slowColumnCumulants } from './advection.ts';
import { closeTo, type Closeness } from './asserts.ts';
import { drivingForceRate, filmCoefficient, glueckaufHeight, plateHeight } from './heights.ts';

const EXACT: Closeness = { relative: 1e-9 };

describe('plate height', () => {
  test.each(vectors.tables.hetp)('of $case, $d_um µm, at $u_cm_min cm/min', ({ k, Ds, Dm, d_um, u_cm_min, kf, kL, H_A, H_B, H_Cp, H_Cf, H, H_glueckauf }) => {
    const bead = { d: d_um * 1e-4, eps: 0.38, k, Ds, Dm };
    const u = u_cm_min / 60;
    const height = plateHeight(bead, u);
    closeTo('kf', filmCoefficient(bead, u), kf, EXACT, 'cm/s');
    closeTo('kL', drivingForceRate(bead, u), kL, EXACT, '1/s');
    closeTo('packing', height.packing, H_A, EXACT, 'cm');
    closeTo('diffusion along the bed', height.along, H_B, EXACT, 'cm');
    closeTo('beads', height.bead, H_Cp, EXACT, 'cm');
    closeTo('film', height.film, H_Cf, EXACT, 'cm');
    closeTo('H', height.total, H, EXACT, 'cm');
    closeTo('H after Glueckauf', glueckaufHeight(bead, u), H_glueckauf, EXACT, 'cm');
  });

  test('is the second moment of the column of spheres', () => {
    const bead = { d: 0.0125, eps: 0.38, k: 2, Ds: 1.5e-7, Dm: 4.5e-6 };
    const [u, L] = [0.01, 10];
    const column = {
      L,
      v: u / bead.eps,
      D: 0.67 * bead.Dm,
      eps: bead.eps,
      K: (bead.k * bead.eps) / (1 - bead.eps),
      r: bead.d / 2,
      Ds: bead.Ds,
      kf: filmCoefficient(bead, u),
    };
    const { mean, variance } = slowColumnCumulants(equalSlowColumn(column));
    closeTo('H', plateHeight(bead, u, 0.67, 0).total, (L * variance) / mean ** 2, EXACT, 'cm');
  });
});
