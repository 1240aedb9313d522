// Hydrochloric acid, 0 to 12.5 M: molarity, molality, activity, density, viscosity, and how much of it enters the beads.

/** g/mol, IUPAC 2021 (recalled). */
const MOLAR_MASS_KG = 0.036461;

/** g/mL at 20 °C. Fit to CRC Handbook, 102nd ed., concentrative properties (read); worst error 5e-4 g/mL. `c` in mol/L. */
export function density(c: number): number {
  return 0.99821 + 0.017538 * c + 0.0001582 * c ** 1.5 - 0.0002198 * c * c;
}

/** mol/kg of water from mol/L at 20 °C. */
export function molality(c: number): number {
  return c / (density(c) - MOLAR_MASS_KG * c);
}

/** mol/L from mol/kg of water at 20 °C, by bisection; 0 to 13 mol/L. */
export function molarityFromMolality(m: number): number {
  let low = 0;
  let high = 13;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (molality(middle) < m) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** mol/L from % by mass at 20 °C, by fixed-point iteration on the density. */
export function molarityFromMassPercent(w: number): number {
  let c = 0;
  for (let i = 0; i < 60; i++) c = ((w / 100) * density(c)) / MOLAR_MASS_KG;
  return c;
}

/** mPa s at 20 °C. Fit to CRC Handbook, 102nd ed. (read); worst error 0.65 %. */
export function viscosity(c: number): number {
  return 1.002 * Math.exp(0.0507895 * c - 1.37548e-4 * c * c + 7.40204e-5 * c ** 3);
}

/**
 * Mean molal activity coefficient at 25 °C, 0.018 to 15 mol/kg, stated deviation below 1.2 %.
 * Equation of an extended Debye-Hückel form in an Acta Physico-Chimica Sinica abstract (read; sqrt and square restored).
 */
export function activityCoefficient(m: number): number {
  const root = Math.sqrt(m);
  return 10 ** ((-0.5115 * root) / (1 + 1.471 * root) + 0.1069 * m + 7.412e-3 * m ** 2 - 6.637e-4 * m ** 3 + 1.586e-5 * m ** 4);
}

/** Mean HCl activity m·gamma, mol/kg, of acid of molarity `c`. Density at 20 °C with activity at 25 °C: below 0.01 in log. */
export function meanActivity(c: number): number {
  const m = molality(c);
  return m * activityCoefficient(m);
}

/** HCl inside the beads, mol per L of resin solution: x (x + Q) = (kappa c)², in the form that is exact for small c. */
export function invasion(c: number, Q: number, kappa: number): number {
  const outside = 2 * kappa * c;
  return (outside * outside) / 2 / (Q + Math.sqrt(Q * Q + outside * outside));
}

/** d(invasion)/dc. */
export function invasionSlope(c: number, Q: number, kappa: number): number {
  return (2 * kappa * kappa * c) / Math.sqrt(Q * Q + 4 * kappa * kappa * c * c);
}
