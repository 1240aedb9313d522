// Gravity flow of water and acid through a bed, as far as it has a closed form. Units cm, s, g, mPa s where named so.

/** cm/s². */
export const GRAVITY = 980.665;
const S_PER_MIN = 60;
const G_PER_CM_S_PER_MPA_S = 0.01;

/** Water or acid: density g/mL, viscosity mPa s. */
export interface Fluid {
  readonly density: number;
  readonly viscosity: number;
}

/** A slice of a lane: thickness cm, permeability cm². */
export interface Slice extends Fluid {
  readonly thickness: number;
  readonly permeability: number;
}

/** Kozeny-Carman, constant 180 (recalled; 150 after Ergun), cm² for d in cm. */
export function permeabilityOf(d: number, eps: number, constant = 180): number {
  return (d * d * eps ** 3) / (constant * (1 - eps) ** 2);
}

/** K = k rho g/mu, cm/min. */
export function conductivity(permeability: number, { density, viscosity }: Fluid): number {
  return ((permeability * density * GRAVITY) / (viscosity * G_PER_CM_S_PER_MPA_S)) * S_PER_MIN;
}

/** Darcy: superficial velocity (cm/min) of a bed of length L under `head` cm from free surface to outlet tip. */
export function gravityVelocity(K: number, head: number, L: number, equivalent = 0): number {
  return (K * head) / (L + equivalent);
}

/** Minutes for the free surface to fall from h0 to h1 above the outlet tip; `equivalent` is the outlet's resistance as a length of bed. */
export function fallingHeadMinutes(tubeArea: number, bedArea: number, L: number, equivalent: number, K: number, h0: number, h1: number): number {
  return ((tubeArea / bedArea) * (L + equivalent) * Math.log(h0 / h1)) / K;
}

/** Superficial velocity (cm/min) of a lane of slices below `free` cm of liquid and above `outlet` cm of filled tube (derived). */
export function laneVelocity(
  slices: readonly Slice[],
  free: { readonly height: number; readonly density: number },
  outlet: { readonly height: number; readonly density: number },
): number {
  const weight = free.density * free.height + outlet.density * outlet.height + slices.reduce((sum, { density, thickness }) => sum + density * thickness, 0);
  const drag = slices.reduce((sum, { viscosity, thickness, permeability }) => sum + (viscosity * G_PER_CM_S_PER_MPA_S * thickness) / permeability, 0);
  return ((weight * GRAVITY) / drag) * S_PER_MIN;
}

/** Hagen-Poiseuille head loss (cm of the liquid) of a bore. */
export function boreHeadLoss(d: number, length: number, { density, viscosity }: Fluid, flowMlPerMin: number): number {
  return (128 * viscosity * G_PER_CM_S_PER_MPA_S * length * (flowMlPerMin / S_PER_MIN)) / (Math.PI * d ** 4 * density * GRAVITY);
}

/** Share of flow through a slot of width `gap` (cm) round a bed of radius R: slot permeability gap²/12 over area 2 gap/R. */
export function wallGap(gap: number, R: number, permeability: number): { readonly ratio: number; readonly area: number; readonly flow: number } {
  const ratio = (gap * gap) / 12 / permeability;
  const area = (2 * gap) / R;
  return { ratio, area, flow: (area * ratio) / (area * ratio + 1 - area) };
}

/** Lane lengths under a top inclined by an angle, and transit time of the longest over the shortest (u ~ 1/L, so t ~ L²). */
export function slopedTop(angleDeg: number, L: number, bore: number): { readonly short: number; readonly long: number; readonly ratio: number } {
  const rise = bore * Math.tan((angleDeg * Math.PI) / 180);
  const [short, long] = [L - rise / 2, L + rise / 2];
  return { short, long, ratio: (long / short) ** 2 };
}

/** Relative permeability at a gas saturation; exponent fits Fry, Selker and Gorelick 1997 (abstract read) within 20 %. */
export function gasPermeability(saturation: number, exponent = 3.5): number {
  return (1 - saturation) ** exponent;
}

/** Tate's law with the Harkins-Brown factor (recalled): drop in mL from a tip of radius r cm, surface tension mN/m. */
export function dropVolume(r: number, tension: number, density: number, factor: number): number {
  return (2 * Math.PI * r * tension * factor) / (density * GRAVITY);
}

/** Superficial velocity (cm/min) above which water fingers into heavier, more viscous acid: k g d(rho)/d(mu) (Hill 1952, Dumore 1964, recalled). */
export function criticalVelocity(permeability: number, acid: Fluid, water: Fluid): number {
  return ((permeability * GRAVITY * (acid.density - water.density)) / ((acid.viscosity - water.viscosity) * G_PER_CM_S_PER_MPA_S)) * S_PER_MIN;
}
