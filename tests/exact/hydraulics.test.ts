import { describe, test } from 'vitest';
import vectors from '../data/transport-vectors.json' with { type: 'json' };
import { closeTo, type Closeness } from './asserts.ts';
import { extraColumn, headLeft, stagnantMoments, stopFlowSpread } from './headspace.ts';
import {
  boreHeadLoss,
  conductivity,
  criticalVelocity,
  dropVolume,
  fallingHeadMinutes,
  type Fluid,
  gasPermeability,
  gravityVelocity,
  laneVelocity,
  permeabilityOf,
  type Slice,
  slopedTop,
  wallGap,
} from './hydraulics.ts';
import { slowPlatesCdf, slowPlatesCumulants, slowPlatesPdf } from './plates.ts';
import { integrate } from './quadrature.ts';

const { test_vectors: given, tables } = vectors;
const EXACT: Closeness = { relative: 1e-9 };
/** The given values were computed with 981 cm/s² and rounded properties. */
const GIVEN: Closeness = { relative: 5e-4 };
/** Density and viscosity at whole molarities, 20 °C: fit to read handbook rows (see tables.hcl_fits). */
const fluidAt = (molarity: number): Fluid => ({ density: tables.hcl_integer_molarity[molarity].rho20, viscosity: tables.hcl_integer_molarity[molarity].mu20 });
const [WATER, ACID] = [fluidAt(0), fluidAt(9)];

describe('a bed of beads', () => {
  test.each(tables.permeability)('of $d_um µm at porosity $eps has the Kozeny-Carman permeability', ({ d_um, eps, k_cm2, K_water_cm_min, K_9M_cm_min }) => {
    const k = permeabilityOf(d_um * 1e-4, eps);
    closeTo('k', k, k_cm2, EXACT, 'cm²');
    closeTo('K of water', conductivity(k, WATER), K_water_cm_min, GIVEN, 'cm/min');
    closeTo('K of 9 mol/L HCl', conductivity(k, ACID), K_9M_cm_min, GIVEN, 'cm/min');
  });

  test.each(tables.gravity_flow)(
    'of $d_um µm, $L cm long, drains $Q_water mL/min of water',
    ({ d_um, bore_cm, L, h_free, h_outlet, u_water, Q_water, Q_9M }) => {
      const k = permeabilityOf(d_um * 1e-4, 0.38);
      const velocity = (fluid: Fluid): number => gravityVelocity(conductivity(k, fluid), h_free + L + h_outlet, L);
      const area = (Math.PI * bore_cm ** 2) / 4;
      closeTo('u', velocity(WATER), u_water, GIVEN, 'cm/min');
      closeTo('Q of water', velocity(WATER) * area, Q_water, GIVEN, 'mL/min');
      closeTo('Q of 9 mol/L HCl', velocity(ACID) * area, Q_9M, GIVEN, 'mL/min');
    },
  );

  test.each(given.falling_head.rows)('empties from $h0 to $h1 cm in $t_min min', ({ A_tube, A_bed, L, L_eq, K_cm_min, h0, h1, t_min }) =>
    closeTo('time', fallingHeadMinutes(A_tube, A_bed, L, L_eq, K_cm_min, h0, h1), t_min, EXACT, 'min'),
  );

  test.each(given.lane_flow_two_fluid.rows)('holds two liquids: $case', ({ frac_acid_from_top, frac_water_from_top, u_cm_min }) => {
    const share = frac_acid_from_top ?? frac_water_from_top ?? Number.NaN;
    closeTo('u', twoFluid(share, frac_acid_from_top === undefined ? WATER : ACID), u_cm_min, GIVEN, 'cm/min');
  });

  test.each(given.wall_gap_bypass.rows)(
    'with a gap of $gap_um µm at the wall is bypassed',
    ({ gap_um, R_cm, k_bed_cm2, k_ratio, area_fraction, bypass_fraction }) => {
      const gap = wallGap(gap_um * 1e-4, R_cm, k_bed_cm2);
      closeTo('permeability ratio', gap.ratio, k_ratio, EXACT);
      closeTo('area', gap.area, area_fraction, EXACT);
      closeTo('flow', gap.flow, bypass_fraction, EXACT);
    },
  );

  test.each(given.sloped_top.rows)('sloped by $angle_deg° has lanes of unequal length', ({ angle_deg, L, D, short, long, t_ratio }) => {
    const top = slopedTop(angle_deg, L, D);
    closeTo('shortest', top.short, short, EXACT, 'cm');
    closeTo('longest', top.long, long, EXACT, 'cm');
    closeTo('time ratio', top.ratio, t_ratio, EXACT);
  });

  test.each(given.gas_block.rows)('with $Sg of gas lets less through', ({ Sg, n, k_rel }) => closeTo('k_rel', gasPermeability(Sg, n), k_rel, EXACT));

  test('with trapped gas passes what Fry, Selker and Gorelick 1997 report (abstract read)', () => {
    closeTo('k_rel at 0.14', gasPermeability(0.14), 0.62, { relative: 0.25 });
    closeTo('k_rel at 0.55', gasPermeability(0.55), 0.05, { relative: 0.25 });
  });

  test.each(tables.vf_critical)('of $d_um µm is fingering-prone above a critical velocity at $c mol/L', ({ d_um, c, uc_cm_min }) =>
    closeTo('u_c', criticalVelocity(permeabilityOf(d_um * 1e-4, 0.38), fluidAt(c), WATER), uc_cm_min, GIVEN, 'cm/min'),
  );
});

describe('the outlet', () => {
  test.each(given.poiseuille_tip.rows)('of $d_cm cm bore loses $head_loss_cm cm of head', ({ d_cm, len_cm, mu_P, rho, Q_mL_min, head_loss_cm }) =>
    closeTo('head', boreHeadLoss(d_cm, len_cm, { density: rho, viscosity: mu_P * 100 }, Q_mL_min), head_loss_cm, GIVEN, 'cm'),
  );

  test.each(given.drops.rows)('with a tip of $r_tip_cm cm makes $drops_per_mL drops per mL', ({ r_tip_cm, gamma_mN_m, rho, F, drop_mL }) =>
    closeTo('drop', dropVolume(r_tip_cm, gamma_mN_m, rho, F), drop_mL, GIVEN, 'mL'),
  );
});

describe('volumes outside the bed', () => {
  test.each(given.head_mixing.rows)('a head of $V_head mL keeps $frac_left after $V_passed mL', ({ V_head, V_passed, frac_left }) =>
    closeTo('share', headLeft(V_head, V_passed), frac_left, EXACT),
  );

  test.each(given.extra_column.rows)('add their own mean and variance', ({ V_R, N, V_cstr, V_plug, mean, var: variance, N_obs }) => {
    const moments = extraColumn(V_R, N, V_cstr, V_plug);
    closeTo('mean', moments.mean, mean, EXACT, 'mL');
    closeTo('variance', moments.variance, variance, EXACT, 'mL²');
    closeTo('plates', moments.plates, N_obs, EXACT);
  });

  test.each(given.stop_flow.rows)('let a band grow by diffusion in $t_s s', ({ D, gamma, k, t_s, sigma_cm }) =>
    closeTo('sigma', stopFlowSpread(D, gamma, k, t_s), sigma_cm, EXACT, 'cm'),
  );

  test('that stand still spread a peak as slow uptake does', () => {
    const plates = { N: 20, t0: 2, k: 0.3, kL: 0.8 };
    const stagnant = stagnantMoments(plates.N, plates.t0, plates.k, plates.kL);
    const cumulants = slowPlatesCumulants(plates);
    const moment = (power: number): number => integrate((t) => (t - stagnant.mean) ** power * slowPlatesPdf(plates, t), 0.1, 60, 24);
    closeTo('variance', stagnant.variance, cumulants.variance, EXACT);
    closeTo('variance of the inverted response', moment(2), stagnant.variance, { relative: 1e-6 });
    closeTo('area', slowPlatesCdf(plates, 60), 1, { relative: 1e-9 });
  });
});

/** Velocity of the bed of the given vectors: 125 µm, 10 cm, 5 cm of liquid above, 3 cm of tube below; `share` of it already holds the liquid poured. */
function twoFluid(share: number, top: Fluid): number {
  const permeability = 1.239e-7;
  const below = top === ACID ? WATER : ACID;
  const slices: Slice[] = [
    { ...top, permeability, thickness: 10 * share },
    { ...below, permeability, thickness: 10 * (1 - share) },
  ];
  return laneVelocity(
    slices,
    { height: 5, density: share === 0 ? below.density : top.density },
    { height: 3, density: share === 1 ? top.density : below.density },
  );
}
