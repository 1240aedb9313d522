import { speciesInto, type Solution } from './mixture.ts';
import { absorptionInto, POINTS, SPECIES_IDS } from './spectra.ts';
import { colourOfSpectrum, type Rgb } from './srgb.ts';
import { cos, exp, sin } from '../math/elementary.ts';

// Colour of a clear solution in glass before a white card, by Beer-Lambert.

export interface LiquidOptions {
  /** Factor on the absorbance, for faint colours; 1 is true. */
  readonly exaggerate?: number;
  /** `round` (default) averages over the chords of a round vessel, `flat` is a cuvette. */
  readonly shape?: 'round' | 'flat';
}

/** One stop of a gradient across a vessel: offset 0 at the left wall, 1 at the right. */
export interface VesselStop {
  readonly offset: number;
  readonly colour: Rgb;
}

/** Reflectance of the white card behind the vessel; assumed, like paper. */
const CARD = 0.92;
/** Light added by the glass surface; assumed. */
const HAZE = 0.01;
/**
 * Chords over the diameter at the midpoints of 16 equal angles from the middle to the wall; each also is the width of its
 * strip, so it weighs itself. The average is within 4e-4 of the integral at any absorption (computed).
 */
const CHORD_SHARES: readonly number[] = Array.from({ length: 16 }, (_, i) => cos(((i + 0.5) / 16) * (Math.PI / 2)));
const CHORD_TOTAL = CHORD_SHARES.reduce((sum, chord) => sum + chord, 0);
const STOPS = 9;

/** Colour of a solution seen through `pathCm`: the inner diameter of a round vessel, the width of a flat one. */
export function liquidColour(solution: Solution, pathCm: number, options: LiquidOptions = {}): Rgb {
  const absorption = absorptionOf(solution, options);
  const through = options.shape === 'flat' ? flatTransmittance : roundTransmittance;
  return colourOfSpectrum(absorption.map((alpha) => beforeCard(through(alpha, pathCm))));
}

/** Gradient stops across a round vessel of inner radius `radiusCm`, closer together at the walls, where the path changes fast. */
export function vesselStops(solution: Solution, radiusCm: number, options: LiquidOptions = {}): VesselStop[] {
  const absorption = absorptionOf(solution, options);
  return Array.from({ length: STOPS }, (_, i) => {
    const angle = (Math.PI * i) / (STOPS - 1);
    const pathCm = 2 * radiusCm * sin(angle);
    const colour = colourOfSpectrum(absorption.map((alpha) => beforeCard(flatTransmittance(alpha, pathCm))));
    return { offset: (1 - cos(angle)) / 2, colour };
  });
}

/** Share of the light that passes `pathCm` of liquid with this Napierian absorption. */
export function flatTransmittance(absorptionPerCm: number, pathCm: number): number {
  return exp(-absorptionPerCm * pathCm);
}

/** The same averaged over the width of a round vessel of this diameter. */
export function roundTransmittance(absorptionPerCm: number, diameterCm: number): number {
  let sum = 0;
  for (const chord of CHORD_SHARES) sum += chord * exp(-absorptionPerCm * diameterCm * chord);
  return sum / CHORD_TOTAL;
}

/** Napierian absorption of a solution on the wavelength grid, 1/cm. */
export function absorptionOf(solution: Solution, options: LiquidOptions = {}): Float64Array {
  const amounts = new Float64Array(SPECIES_IDS.length);
  const absorption = new Float64Array(POINTS);
  speciesInto(amounts, solution);
  absorptionInto(absorption, amounts);
  return absorption.map((alpha) => alpha * (options.exaggerate ?? 1));
}

function beforeCard(transmittance: number): number {
  return HAZE + (1 - HAZE) * CARD * transmittance;
}
