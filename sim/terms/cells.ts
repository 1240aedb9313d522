// Plate height is what the packing gives; how many cells the model lays along the bed follows from it.

/** Glueckauf's eddy term, H = 1.64 r q (J. Chem. Soc. trans. 1955 via Helfferich 1962, recalled). */
const EDDY = 1.64;
/** Fewer cells draw a band in steps and round off every front; more only cost time. */
const CELLS_LEAST = 60;
const CELLS_MOST = 400;

/** Plate height of the packing alone, cm: beads of `bead_um` packed with quality `packing` (1 perfect, 3 to 10 by hand). */
export function packingHeight(bead_um: number, packing: number): number {
  return EDDY * ((bead_um * 1e-4) / 2) * packing;
}

/**
 * Cells along a bed: one per plate height of its packing, so a longer bed gets more of them. Where that would be few the cells are
 * shorter than a plate, and the liquid between them is spread by the rest.
 */
export function cellsFor(length_cm: number, bead_um: number, packing: number): number {
  const height = packingHeight(bead_um, packing);
  const plates = height > 0 ? Math.round(length_cm / height) : CELLS_MOST;
  return Math.min(CELLS_MOST, Math.max(CELLS_LEAST, plates));
}
