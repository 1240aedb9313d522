import { add, type Complex, coth, div, exp, mul, scale, sqrt } from './complex.ts';
import { invertIntegral, type Transform } from './laplace.ts';
import type { Cumulants } from './plates.ts';
import { integrate } from './quadrature.ts';
import { besselI1Scaled, erfc, erfcx, jFunction } from './special.ts';

// Advection with dispersion along one coordinate, R dc/dt = D c_xx - v c_x, without and with uptake at a finite rate.

/** Place and time in a column of retardation factor R. */
export interface Advection {
  readonly v: number;
  readonly D: number;
  readonly R: number;
}

/** Column of length L whose beads take up at rate kL (retention factor k); k = immobile over mobile water for stagnant water. */
export interface SlowColumn {
  readonly L: number;
  readonly v: number;
  readonly D: number;
  readonly k: number;
  readonly kL: number;
}

/** Column of spheres of radius r and diffusivity Ds behind a film of coefficient kf, K = bead over liquid. */
export interface SphereColumn {
  readonly L: number;
  readonly v: number;
  readonly D: number;
  readonly eps: number;
  readonly K: number;
  readonly r: number;
  readonly Ds: number;
  readonly kf: number;
}

/** Step at a first-type inlet: Ogata and Banks 1961, USGS Prof. Paper 411-A (formula read in Penn State PNG 550). Also the flux concentration behind a third-type inlet. */
export function stepFirstType({ v, D, R }: Advection, x: number, t: number): number {
  const spread = 2 * Math.sqrt(D * R * t);
  const near = (R * x - v * t) / spread;
  return 0.5 * (erfc(near) + erfcx((R * x + v * t) / spread) * Math.exp(-near * near));
}

/** Resident concentration behind a third-type (flux) inlet: van Genuchten and Alves 1982, USDA Techn. Bull. 1661, A2 (recalled). */
export function stepThirdType({ v, D, R }: Advection, x: number, t: number): number {
  const spread = 2 * Math.sqrt(D * R * t);
  const near = (R * x - v * t) / spread;
  const fade = Math.exp(-near * near);
  const reach = (v * v * t) / (D * R);
  return 0.5 * erfc(near) + Math.sqrt(reach / Math.PI) * fade - 0.5 * (1 + (v * x) / D + reach) * erfcx((R * x + v * t) / spread) * fade;
}

/** Amount m per unit of mobile cross-section put at x = 0 of an endless bed. */
export function gaussianPulse({ v, D, R }: Advection, m: number, x: number, t: number): number {
  return (m / (R * Math.sqrt((4 * Math.PI * D * t) / R))) * Math.exp(-((x - (v * t) / R) ** 2) / ((4 * D * t) / R));
}

/** Effluent of an impulse, 1/time: the inverse Gaussian density (derived from Ogata-Banks). */
export function impulseFlux({ v, D, R }: Advection, L: number, t: number): number {
  if (t <= 0) return 0;
  return ((R * L) / Math.sqrt(4 * Math.PI * D * R * t ** 3)) * Math.exp(-((R * L - v * t) ** 2) / (4 * D * R * t));
}

/** Effluent of an impulse through a column with slow uptake (Lapidus and Amundson 1952, recalled), by real quadrature over the time spent in the liquid. */
export function slowColumnPdf(column: SlowColumn, t: number): number {
  const { k, kL } = column;
  const never = inLiquid(column, t) * Math.exp(-k * kL * t);
  return never + overLiquidTime(column, t, (tau) => inLiquid(column, tau) * kL * impulseUptake(k * kL * tau, kL * (t - tau)));
}

/** Effluent of a step: F(t) = integral of E0(tau) J(k kL tau, kL (t - tau)). */
export function slowColumnCdf(column: SlowColumn, t: number): number {
  const { k, kL } = column;
  return overLiquidTime(column, t, (tau) => inLiquid(column, tau) * jFunction(k * kL * tau, kL * (t - tau)));
}

/** From ln G = (vL/2D)(1 - sqrt(1 + 4Dg/v²)) (derived). */
export function slowColumnCumulants({ L, v, D, k, kL }: SlowColumn): Cumulants {
  const t0 = L / v;
  return {
    mean: t0 * (1 + k),
    variance: (2 * D * L * (1 + k) ** 2) / v ** 3 + (2 * t0 * k) / kL,
    third: 6 * ((t0 * k) / kL ** 2 + (2 * L * D * (1 + k) * k) / (v ** 3 * kL) + (2 * L * D * D * (1 + k) ** 3) / v ** 5),
  };
}

/** The same response through its Laplace transform, for a check of the quadrature. */
export function slowColumnTransform({ L, v, D, k, kL }: SlowColumn): Transform {
  return (s) => dispersed(L, v, D, mul(s, add([1, 0], div([k * kL, 0], add(s, [kL, 0])))));
}

/** Rosen 1952, Kubin 1965, Kucera 1965 (recalled); surface flux of a sphere Ds K c (x coth x - 1)/r, x = r sqrt(s/Ds). */
export function sphereTransform({ L, v, D, eps, K, r, Ds, kf }: SphereColumn): Transform {
  return (s) => {
    const x = scale(sqrt(s), r / Math.sqrt(Ds));
    const flux = scale(add(mul(x, coth(x)), [-1, 0]), (Ds * K) / r);
    const throughFilm = div(flux, add([1, 0], scale(flux, 1 / kf)));
    return dispersed(L, v, D, add(s, scale(throughFilm, (((1 - eps) / eps) * 3) / r)));
  };
}

export function sphereCdf(column: SphereColumn, t: number): number {
  return invertIntegral(sphereTransform(column), t);
}

/** The linear driving force with the same mean and variance: 1/kL = r²/(15 Ds) + K r/(3 kf) (Glueckauf 1955, recalled). */
export function equalSlowColumn({ L, v, D, eps, K, r, Ds, kf }: SphereColumn): SlowColumn {
  return { L, v, D, k: (K * (1 - eps)) / eps, kL: 1 / ((r * r) / (15 * Ds) + (K * r) / (3 * kf)) };
}

function inLiquid({ L, v, D }: SlowColumn, tau: number): number {
  return impulseFlux({ v, D, R: 1 }, L, tau);
}

/** Density in kL theta of leaving after uptake: sqrt(N/NT) e^(-N-NT) I1(2 sqrt(N NT)) (Anzelius 1926, recalled). */
export function impulseUptake(N: number, NT: number): number {
  if (NT <= 0) return N * Math.exp(-N);
  const root = 2 * Math.sqrt(N * NT);
  return Math.sqrt(N / NT) * Math.exp(root - N - NT) * besselI1Scaled(root);
}

/** Integral over the part of 0 to t where the inverse Gaussian is more than nothing. */
function overLiquidTime({ L, v, D }: SlowColumn, t: number, f: (tau: number) => number): number {
  const mean = L / v;
  const deviation = Math.sqrt((2 * D * L) / v ** 3);
  const from = mean / (1 + 10 * (deviation / mean) + 25 * (deviation / mean) ** 2);
  const to = Math.min(t, mean + 12 * deviation + (60 * (deviation * deviation)) / mean);
  return to <= from ? 0 : integrate(f, from, to);
}

function dispersed(L: number, v: number, D: number, g: Complex): Complex {
  return exp(scale(add([1, 0], scale(sqrt(add([1, 0], scale(g, (4 * D) / (v * v)))), -1)), (v * L) / (2 * D)));
}
