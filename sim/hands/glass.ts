// Volumetric glass: class tolerances in mL at 20 °C.

export type Vessel = 'pipette' | 'flask' | 'burette';

/**
 * Class A tolerances by capacity. Burettes: ASTM E287, recalled. Pipettes: ASTM E969, 5 to 100 mL read in a table of
 * precision as taught, 1 and 2 mL recalled. Flasks: the same table; 500 mL 0.20 in ASTM E288, recalled, 0.15 in the table.
 */
export const CLASS_A: Readonly<Record<Vessel, readonly (readonly [capacity_mL: number, tolerance_mL: number])[]>> = {
  pipette: [
    [1, 0.006],
    [2, 0.006],
    [5, 0.01],
    [10, 0.02],
    [25, 0.03],
    [50, 0.05],
    [100, 0.08],
  ],
  flask: [
    [25, 0.03],
    [50, 0.05],
    [100, 0.08],
    [250, 0.12],
    [500, 0.2],
    [1000, 0.3],
    [2000, 0.5],
  ],
  burette: [
    [10, 0.02],
    [25, 0.03],
    [50, 0.05],
    [100, 0.1],
  ],
};

/** Class B is twice class A: ASTM E287 scope, read. */
export const CLASS_B_FACTOR = 2;
/** A titre of less than this share of the burette is worth a smaller burette or a stronger sample. USP <31>, read. */
export const TITRE_SHARE_MIN = 0.3;

/** Tolerance of the smallest vessel that holds this volume. */
export function tolerance(vessel: Vessel, volume_mL: number, grade: 'A' | 'B' = 'A'): number {
  const rows = CLASS_A[vessel];
  const row = rows.find(([capacity]) => capacity >= volume_mL * (1 - 1e-9)) ?? rows[rows.length - 1];
  return row[1] * (grade === 'B' ? CLASS_B_FACTOR : 1);
}

/** Smallest volumetric flask that holds a volume, at least `wanted_mL`; undefined if none does. */
export function flaskSize(volume_mL: number, wanted_mL: number): number | undefined {
  if (volume_mL <= wanted_mL) return wanted_mL;
  return CLASS_A.flask.map(([capacity]) => capacity).find((capacity) => capacity >= volume_mL);
}
