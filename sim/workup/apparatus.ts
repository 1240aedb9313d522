import { handOf, tolerance, type Vessel } from '../hands/index.ts';
import { normal, triangular } from '../math/drawn.ts';
import type { Parameters } from '../terms/fields.ts';
import { power } from '../math/elementary.ts';

// The errors that a seed gives to the pieces on one bench and to the hands that use them.

/** True values of one bench: what the labels on it stand for. */
export interface Apparatus {
  /** True volume of a nominal one, mL; `name`: which filling, for the hand differs each time. */
  readonly pipette: (nominal_mL: number, name?: string) => number;
  readonly flask: (nominal_mL: number) => number;
  /** mL delivered by mL read off the burette, and the other way round. */
  readonly delivered: (read_mL: number) => number;
  readonly shown: (delivered_mL: number) => number;
  readonly EDTA_M: number;
  /** What is read off a burette at a true level, to 0.01 mL. */
  readonly reading: (level_mL: number, name: string) => number;
  /** Factor on the faintest blue that this titration's eye sees. */
  readonly eye: (name: string) => number;
  /** mL that the first run from the burette ends short of whole drops. */
  readonly firstDrop: (name: string) => number;
  /** mL of liquid that stay on the walls of a vessel poured out. */
  readonly film: (name: string) => number;
  /** What the pH meter shows, to 0.01. */
  readonly meter: (pH: number, name: string) => number;
}

/**
 * Below this share of a burette its error grows with the volume, above it is one error between two marks, which is what a
 * tolerance speaks of; assumed.
 */
const MARKED_SHARE = 0.05;
/** mL left on the walls of a small beaker after pouring, some 60 cm² wetted 50 µm deep, and how much that differs; assumed. */
export const FILM_ML = 0.3;
const FILM_SPREAD = 0.5;
/** Largest error of a calibrated pH meter; assumed. */
const METER_ERROR = 0.02;

/** The same eye on another flask sees a blue this many times fainter or stronger at most; assumed. */
const EYE_SPREAD = 2;

/** One bench: each piece of glass has one error that lasts, each reading one of its own. */
export function apparatusOf(values: Parameters, seed: number): Apparatus {
  const glass = (vessel: Vessel, nominal: number) => nominal + tolerance(vessel, nominal) * triangular(seed, `${vessel} ${nominal}`);
  const capacity = values['workup.burette_mL'];
  const hand = values['bench.hand'];
  const buretteError = tolerance('burette', capacity) * triangular(seed, 'burette');
  const marked = (volume: number) => buretteError * Math.min(1, volume / (MARKED_SHARE * capacity));
  return {
    pipette: (nominal, name) => glass('pipette', nominal) + (name === undefined ? 0 : hand * handOf(nominal) * normal(seed, `pipette hand ${name}`)),
    flask: (nominal) => glass('flask', nominal),
    delivered: (read) => read + marked(read),
    shown: (delivered) => delivered - marked(delivered),
    EDTA_M: values['workup.EDTA_M'] + values['workup.EDTA_tolerance_M'] * triangular(seed, 'EDTA'),
    reading: (level, name) => hundredths(level + values['workup.reading_mL'] * triangular(seed, name)),
    eye: (name) => power(EYE_SPREAD, triangular(seed, `${name} eye`)),
    firstDrop: (name) => (values['workup.drop_mL'] * (1 + triangular(seed, `${name} drop`))) / 2,
    film: (name) => hand * FILM_ML * (1 + FILM_SPREAD * triangular(seed, `${name} film`)),
    meter: (pH, name) => hundredths(pH + METER_ERROR * triangular(seed, name)),
  };
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100;
}
