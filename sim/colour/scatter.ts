// Light in a packed bed of tinted beads: what the resin absorbs, what a bead absorbs, what a layer gives back.
import { exp } from '../math/elementary.ts';

/** Own absorption of the resin at 400 nm, 1/cm: three looks. Assumed; no measured spectrum found. */
export const RESIN_TINTS_PER_CM = { colourless: 0, pale: 6, amber: 25 } as const;

/** Own absorption of the resin, Napierian, 1/cm of bead: a violet edge of 50 nm decay over a grey part. Assumed, tuned by eye. */
export function resinAbsorption(tintPerCm: number, wavelength_nm: number): number {
  const grey = Math.min(0.1, Math.max(0.05, 0.004 * tintPerCm));
  return tintPerCm * exp(-(wavelength_nm - 400) / 50) + grey;
}

/**
 * Absorption efficiency of a sphere of optical thickness `tau` (absorption times diameter): dye inside beads absorbs less
 * than the same dye spread out. Duysens 1956, Biochim. Biophys. Acta 19, 1, recalled.
 */
export function sphereEfficiency(tau: number): number {
  if (tau < 1e-3) return (2 * tau) / 3 - (tau * tau) / 4;
  return 1 - (2 * (1 - (1 + tau) * exp(-tau))) / (tau * tau);
}

/** Kubelka-Munk reflectance of a layer over black: absorption K and scattering S in 1/cm, recalled; K/S = (1-R)^2/2R read. */
export function layerReflectance(K: number, S: number, depthCm: number): number {
  const a = 1 + K / S;
  const b = Math.sqrt(a * a - 1);
  const decay = exp(-2 * b * S * depthCm);
  const bCoth = b < 1e-9 ? 1 / (S * depthCm) : (b * (1 + decay)) / (1 - decay);
  return 1 / (a + bCoth);
}
