/** Molarity for which the shrinkage of a resin is stated, mol/L. */
const SHRUNK_IN_M = 9;

/** Length of a stretch of bed in acid over that in water: it loses `shrinkage` in 9 M HCl, less in weaker acid in proportion (assumed). */
export function swollen(shrinkage: number, acid_M: number): number {
  return 1 - shrinkage * Math.min(1, acid_M / SHRUNK_IN_M);
}
