// Hydrochloric acid, 0 to 13 mol/L: molarity, molality, activity, density, viscosity, and how much of it enters the beads.
// Density and viscosity hold at 20 °C, activity at 25 °C; taking them together costs less than 0.01 in log10 of the activity (computed).
import { exp, pow10, power } from '../math/elementary.ts';

/** kg/mol, so that mol/L times this is g/mL; IUPAC 2021 abridged weights (recalled). */
const MOLAR_MASS = 0.036461;

/** HCl that boils without changing, 20.2 % by mass, 1.096 g/mL: mol/L (recalled). Weaker acid loses water to the air, stronger acid HCl. */
export const AZEOTROPE_M = 6.1;

/** g/mL at 20 °C from mol/L. Fit to the CRC Handbook, 102nd ed., concentrative properties of aqueous solutions (read); worst error 5e-4. */
export function density(c: number): number {
  return 0.99821 + 0.017538 * c + 0.0001582 * c * Math.sqrt(c) - 0.0002198 * c * c;
}

/** mol/kg of water from mol/L at 20 °C. */
export function molality(c: number): number {
  return c / (density(c) - MOLAR_MASS * c);
}

/** mPa s at 20 °C from mol/L. Fit to the CRC Handbook, 102nd ed. (read), to 12.4 mol/L; worst error 0.65 %. */
export function viscosity(c: number): number {
  return 1.002 * exp(0.0507895 * c - 1.37548e-4 * c * c + 7.40204e-5 * power(c, 3));
}

/**
 * log10 of the activity coefficient is -A s/(1 + B s) + sum of P[k] m^(k+1), s the root of m; 25 °C, 0.018 to 15.02 mol/kg,
 * stated deviation below 1.2 %. Acta Physico-Chimica Sinica, abstract 21786 at www.whxb.pku.edu.cn (read; there s and m² had
 * dropped out of the text and are put back here). Above 15 mol/kg, 11.4 mol/L, the equation is carried on.
 */
const A = 0.5115;
const B = 1.471;
const P = [0.1069, 7.412e-3, -6.637e-4, 1.586e-5] as const;

/** Mean molal activity coefficient at 25 °C from mol/kg. */
export function activityCoefficient(m: number): number {
  const s = Math.sqrt(m);
  return pow10((-A * s) / (1 + B * s) + m * (P[0] + m * (P[1] + m * (P[2] + m * P[3]))));
}

/** Mean HCl activity, mol/kg: molality times activity coefficient, of acid of `c` mol/L. */
export function meanActivity(c: number): number {
  const m = molality(c);
  return m * activityCoefficient(m);
}

/**
 * HCl inside the beads, mol per L of resin solution: x (x + Q) = (kappa c)², Donnan equality with a constant ratio kappa of the
 * activity coefficients; Helfferich, Ion Exchange (1962), ch. 5 (recalled). Solved in the form that keeps its digits at small c.
 */
export function invasion(c: number, Q: number, kappa: number): number {
  const outside = 2 * kappa * c;
  return (outside * outside) / 2 / (Q + Math.sqrt(Q * Q + outside * outside));
}
