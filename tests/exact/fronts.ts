import { impulseUptake } from './advection.ts';
import { jComplement, jFunction } from './special.ts';

// Fronts in plug flow: constant separation factor, ideal Langmuir (method of characteristics), Donnan uptake of HCl, eluent switch.

/** Langmuir isotherm q = qs b c/(1 + b c) in a bed of porosity eps, feed c0 for t_inj. */
export interface LangmuirPulse {
  readonly v: number;
  readonly eps: number;
  readonly L: number;
  readonly qs: number;
  readonly b: number;
  readonly c0: number;
  readonly t_inj: number;
}

export interface LangmuirTimes {
  readonly t0: number;
  readonly k0: number;
  readonly shockSpeed: number;
  readonly feedSpeed: number;
  readonly zeroSpeed: number;
  readonly breakthrough: number;
  /** Place and time at which the rear has eaten the plateau. */
  readonly plateauEnd: { readonly x: number; readonly t: number };
  /** Amount fed over what the column can hold. */
  readonly load: number;
  readonly rearEnd: number;
  readonly front: { readonly t: number; readonly c: number };
  readonly mean: number;
}

/** HCl that beads take up: cbar (cbar + X) = (G c)², X and cbar per litre of internal liquid, w internal liquid per bead. */
export interface DonnanResin {
  readonly X: number;
  readonly w: number;
  readonly G: number;
  readonly eps: number;
}

/**
 * Breakthrough at constant separation factor r = 1/(1 + b c0), Thomas 1944 (recalled):
 * X = J(rN, T)/(J(rN, T) + (1 - J(N, rT)) e^((r-1)(T-N))), N = F ka qm L/v, T = ka (c0 + 1/b)(t - L/v).
 * The sign of the exponent was checked by direct integration of X_z = -S, Y_T = S, S = X(1-Y) - rY(1-X).
 */
export function thomas(r: number, N: number, NT: number): number {
  const ahead = jFunction(r * N, NT);
  return ahead / (ahead + jComplement(N, r * NT) * Math.exp((r - 1) * (NT - N)));
}

/** Step and impulse with linear uptake at a finite rate, Anzelius 1926 (recalled): N = k kL L/v, NT = kL (t - L/v). */
export function anzelius(N: number, NT: number): { readonly step: number; readonly impulse: number } {
  return { step: jFunction(N, NT), impulse: impulseUptake(N, NT) };
}

/** Ideal (equilibrium, no dispersion) Langmuir pulse whose plateau is gone before the outlet. */
export function langmuirPulse({ v, eps, L, qs, b, c0, t_inj }: LangmuirPulse): LangmuirTimes {
  const t0 = L / v;
  const k0 = ((1 - eps) / eps) * qs * b;
  const shockSpeed = v / (1 + k0 / (1 + b * c0));
  const feedSpeed = v / (1 + k0 / (1 + b * c0) ** 2);
  const meet = (t_inj * feedSpeed) / (feedSpeed - shockSpeed);
  const load = (c0 * t_inj * v * eps) / ((1 - eps) * qs * L);
  const tau = [t0 * k0 * (1 - Math.sqrt(load)) ** 2, t0 * k0];
  return {
    t0,
    k0,
    shockSpeed,
    feedSpeed,
    load,
    zeroSpeed: v / (1 + k0),
    breakthrough: L / shockSpeed,
    plateauEnd: { x: shockSpeed * meet, t: meet },
    rearEnd: t_inj + t0 * (1 + k0),
    front: { t: t_inj + t0 + tau[0], c: Math.sqrt(load) / (1 - Math.sqrt(load)) / b },
    mean: t_inj + t0 + meanRear(tau[0], tau[1]),
  };
}

/** Concentration of the rear at the outlet. */
export function langmuirRear(pulse: LangmuirPulse, t: number): number {
  const { t0, k0, front, rearEnd } = langmuirPulse(pulse);
  return t < front.t || t > rearEnd ? 0 : (Math.sqrt((t0 * k0) / (t - pulse.t_inj - t0)) - 1) / pulse.b;
}

/** Retention of the front over that of a trace, and b times its concentration, when the load is a share of the column. */
export function overloadShift(load: number): { readonly retention: number; readonly bc: number } {
  return { retention: (1 - Math.sqrt(load)) ** 2, bc: Math.sqrt(load) / (1 - Math.sqrt(load)) };
}

/** HCl inside the beads, mol per litre of internal liquid. */
export function donnanInternal({ X, G }: DonnanResin, c: number): number {
  return (2 * (G * c) ** 2) / (X + Math.sqrt(X * X + 4 * (G * c) ** 2));
}

/** Retention factors of HCl: chord (front of c against water) and slope (foot of the spreading front). */
export function donnanRetention(resin: DonnanResin, c: number): { readonly chord: number; readonly slope: number } {
  const phase = (resin.w * (1 - resin.eps)) / resin.eps;
  const inside = donnanInternal(resin, c);
  return { chord: (phase * inside) / c, slope: (phase * 2 * resin.G ** 2 * c) / (2 * inside + resin.X) };
}

/** Hold-up volumes at which an ideal front leaves: acid after acid-free (spreading, begins and ends) and water after acid (sharp). */
export function donnanFronts(resin: DonnanResin, c: number): { readonly acidBegins: number; readonly acidEnds: number; readonly waterLeaves: number } {
  const { chord, slope } = donnanRetention(resin, c);
  return { acidBegins: 1, acidEnds: 1 + slope, waterLeaves: 1 + chord };
}

/** Width of a band after a sharp eluent front has swept it: over its old width in space, and in time at the outlet; 0 if the band rides on the front. */
export function sweptWidth(k1: number, k2: number, kFront: number): { readonly space: number; readonly time: number } {
  const [u1, u2, uf] = [k1, k2, kFront].map((k) => 1 / (1 + k));
  if (u2 >= uf) return { space: 0, time: 0 };
  const space = (uf - u2) / (uf - u1);
  return { space, time: (space * u1) / u2 };
}

/** Mean of tau weighted with sqrt(tau1/tau) - 1 from tau0 to tau1 (derived). */
function meanRear(tau0: number, tau1: number): number {
  const amount = (tau: number): number => 2 * Math.sqrt(tau1 * tau) - tau;
  const first = (tau: number): number => (2 / 3) * Math.sqrt(tau1) * tau ** 1.5 - (tau * tau) / 2;
  return (first(tau1) - first(tau0)) / (amount(tau1) - amount(tau0));
}
