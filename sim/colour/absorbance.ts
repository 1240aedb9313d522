import { type Solution, speciesInto } from './mixture.ts';
import { molarAbsorptivity, SPECIES_IDS, type SpeciesId } from './spectra.ts';

/** Absorbance (log 10) that one species gives a solution over a path, at a wavelength. */
export function absorbanceOf(species: SpeciesId, solution: Solution, path_cm: number, wavelength_nm: number): number {
  const amounts = new Float64Array(SPECIES_IDS.length);
  speciesInto(amounts, solution);
  return amounts[SPECIES_IDS.indexOf(species)] * molarAbsorptivity(species, wavelength_nm) * path_cm;
}
