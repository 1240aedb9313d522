// Drops at the tip: how large one grows before it falls.
import { density } from '../chemistry/index.ts';
import { cbrt } from '../math/elementary.ts';
import { monotoneCubic } from '../math/interpolation.ts';
import type { Parameters } from '../terms/types.ts';

/** cm/s². */
const GRAVITY = 980.665;
/**
 * Surface tension of hydrochloric acid at 20 °C, mN/m, against mol/L: mass percent 0, 6.78, 12.81, 16.97, 23.74, 35.29
 * (handbook table, recalled), converted with the density of the same acid (derived).
 */
const TENSION: readonly (readonly [acid_M: number, tension: number])[] = [
  [0, 72.75],
  [1.92, 72.25],
  [3.73, 71.85],
  [5.04, 71.75],
  [7.27, 70.55],
  [11.4, 65.75],
];
/** Share of the ideal drop that falls, against tip radius over the cube root of its volume (Harkins and Brown, J. Am. Chem. Soc. 41 (1919) 499, recalled). */
const FALLEN: readonly (readonly [ratio: number, share: number])[] = [
  [0.3, 0.7256],
  [0.4, 0.6828],
  [0.5, 0.6515],
  [0.6, 0.625],
  [0.7, 0.6093],
  [0.8, 0.6],
  [0.9, 0.5998],
  [1, 0.6098],
  [1.1, 0.628],
  [1.2, 0.6535],
];
/** Rounds after which drop and factor agree to all digits that matter: each gains a factor of ten or so. */
const ROUNDS = 30;

const tensionAt = monotoneCubic(
  TENSION.map(([acid]) => acid),
  TENSION.map(([, tension]) => tension),
);
const fallenAt = monotoneCubic(
  FALLEN.map(([ratio]) => ratio),
  FALLEN.map(([, share]) => share),
);

/** Surface tension of hydrochloric acid at 20 °C, mN/m; held above the last row of the table. */
export function surfaceTension(acid_M: number): number {
  return tensionAt(Math.min(Math.max(acid_M, 0), TENSION[TENSION.length - 1][0]));
}

/** Harkins-Brown factor for a tip radius over the cube root of the drop volume; held beyond 0.3 and 1.2. */
export function harkinsBrown(ratio: number): number {
  return fallenAt(Math.min(Math.max(ratio, FALLEN[0][0]), FALLEN[FALLEN.length - 1][0]));
}

/** Volume (mL) of a drop that falls from a tip of radius `radius_cm`: Tate's law, V = f 2 pi r gamma/(rho g), f by Harkins and Brown. */
export function dropVolume(radius_cm: number, tension: number, density_g_mL: number): number {
  const ideal = (2 * Math.PI * radius_cm * tension) / (density_g_mL * GRAVITY);
  let volume = 0.6 * ideal;
  for (let n = 0; n < ROUNDS; n++) volume = ideal * harkinsBrown(radius_cm / cbrt(volume));
  return volume;
}

/** Volume (mL) of a drop of hydrochloric acid of this molarity at the tip of a scenario. A drop that forms fast is a little larger; left out. */
export function dropOf(values: Parameters, acid_M: number): number {
  return dropVolume(values['column.tip_mm'] / 20, surfaceTension(acid_M), density(acid_M));
}
