// How a load of anions weakens their own uptake. Inside the beads, per litre of resin solution: fixed charge Q, H+ h, Cl- y,
// anions s_i of charge z_i.
//
//   electroneutrality   Q + h = y + sum z_i s_i
//   Donnan, HCl         h y = (kappa c)²
//   Donnan, anion       s_i = K_i c_i (y/c)^z_i
//
// The first two give y² - Q (1 - theta) y - (kappa c)² = 0 with theta = sum z_i s_i/Q: the exchange falls as if the resin had only
// the charge that is left. Donnan equality: Helfferich, Ion Exchange (1962), ch. 5 (recalled); the loaded form is derived. In
// dilute acid it is the (1 - theta)^z of an exchanger without co-ions; in strong acid, which brings chloride of its own, far less.

/**
 * Near full load HCl has to leave to make room, and resins stop taking up: chloride counts for at most sqrt((1 - theta)/LAST) of
 * that of an unloaded bead, so that a divalent anion is held at most (1 - theta)/LAST as well as a trace (assumed; no value found).
 */
const LAST = 0.1;

/** Cl- inside the beads, mol per L of resin solution, of charge `left` that no other anion takes, in HCl of `c` mol/L. */
export function innerChloride(c: number, left: number, kappa: number): number {
  return (left + Math.sqrt(left * left + 4 * kappa * kappa * c * c)) / 2;
}

/** Square of 2 kappa c/Q: how much HCl the beads take up beside their own charge. */
export function saltOf(c: number, Q: number, kappa: number): number {
  const ratio = (2 * kappa * c) / Q;
  return ratio * ratio;
}

/**
 * Chloride in the beads over that without a load, when a share `left` of the charge is free, 0 to 1, and the HCl counts `salt`.
 * The uptake of an anion of charge z is this to the power z, times that of a trace.
 */
export function chlorideLeft(left: number, salt: number): number {
  const donnan = (left + Math.sqrt(left * left + salt)) / (1 + Math.sqrt(1 + salt));
  return donnan * donnan * LAST < left ? donnan : Math.sqrt(left / LAST);
}

/** How strongly uptake depends on load, for a divalent anion: -d ln(uptake)/d ln(theta) at a share `taken` of the charge. */
export function loadPull(taken: number, salt: number): number {
  const left = Math.max(1 - taken, 1e-6);
  const donnan = (2 * taken) / Math.sqrt(left * left + salt);
  return left < 2 * LAST ? Math.max(donnan, taken / left) : donnan;
}
