import type { Parameters } from '../terms/fields.ts';
import { uniform } from '../math/random.ts';
import { power } from '../math/elementary.ts';

// Volumetric glass: class tolerances in mL at 20 °C, and the errors that a seed gives to the pieces on one bench.

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

/** True values of one bench: what the labels on it stand for. */
export interface Apparatus {
  /** True volume of a nominal one, mL. */
  readonly pipette: (nominal_mL: number) => number;
  readonly flask: (nominal_mL: number) => number;
  /** mL delivered per mL read off the burette. */
  readonly burette: number;
  readonly EDTA_M: number;
  /** What is read off a burette at a true level, to 0.01 mL. */
  readonly reading: (level_mL: number, name: string) => number;
  /** Factor on the faintest blue that this titration's eye sees. */
  readonly eye: (name: string) => number;
  /** mL that the first run from the burette ends short of whole drops. */
  readonly firstDrop: (name: string) => number;
  /** What the pH meter shows, to 0.01. */
  readonly meter: (pH: number, name: string) => number;
}

/** Largest error of a calibrated pH meter; assumed. */
const METER_ERROR = 0.02;

/** The same eye on another flask sees a blue this many times fainter or stronger at most; assumed. */
const EYE_SPREAD = 2;

/** One bench: each piece of glass has one error that lasts, each reading one of its own. */
export function apparatusOf(values: Parameters, seed: number): Apparatus {
  const glass = (vessel: Vessel, nominal: number) => nominal + tolerance(vessel, nominal) * drawn(seed, `${vessel} ${nominal}`);
  const capacity = values['workup.burette_mL'];
  const buretteError = (tolerance('burette', capacity) / capacity) * drawn(seed, 'burette');
  return {
    pipette: (nominal) => glass('pipette', nominal),
    flask: (nominal) => glass('flask', nominal),
    burette: 1 + buretteError,
    EDTA_M: values['workup.EDTA_M'] + values['workup.EDTA_tolerance_M'] * drawn(seed, 'EDTA'),
    reading: (level, name) => hundredths(level + values['workup.reading_mL'] * drawn(seed, name)),
    eye: (name) => power(EYE_SPREAD, drawn(seed, `${name} eye`)),
    firstDrop: (name) => (values['workup.drop_mL'] * (1 + drawn(seed, `${name} drop`))) / 2,
    meter: (pH, name) => hundredths(pH + METER_ERROR * drawn(seed, name)),
  };
}

/** -1 to 1 with a peak at 0 (triangular), the same for the same seed and name: no order of use can change it. */
function drawn(seed: number, name: string): number {
  const first = uniform((seed | 0) ^ hash(name));
  const second = uniform(first.state);
  return first.value + second.value - 1;
}

/** FNV-1a, 32 bit; Fowler, Noll and Vo, recalled. */
function hash(text: string): number {
  let h = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return h;
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100;
}
