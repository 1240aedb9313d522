import { type ComplexSpecies, species } from '../../../sim/chemistry/index.ts';
import { absorptionInto, colourOfSpectrum, hexOf, POINTS, SPECIES, SPECIES_IDS, type SpeciesId } from '../../../sim/colour/index.ts';
import { type IonId, SPECTRA_BY_CHLORIDES } from '../../../sim/terms/ions.ts';

// The colour of one species alone, from its spectrum.

/** mol/L and cm of the swatch. */
export const SWATCH_M = 0.05;
export const SWATCH_CM = 1;

/** Spectrum of each species that has one, by number of chlorides. */
const SPECTRUM: Readonly<Partial<Record<IonId, Readonly<Partial<Record<number, SpeciesId>>>>>> = SPECTRA_BY_CHLORIDES;
/** Filled shells absorb no visible light, and iron(II) next to none (recalled). */
const COLOURLESS: readonly IonId[] = ['Zn', 'Cd', 'Fe2', 'Mn'];

export interface Swatch {
  /** CSS colour; undefined when no spectrum is known. */
  readonly colour: string | undefined;
  /** Empty where the colour says it all. */
  readonly words: string;
}

export function swatchOf(ion: IonId, { ligands, charge, label }: ComplexSpecies): Swatch {
  const id = label.startsWith('H') && charge > -2 ? undefined : SPECTRUM[ion]?.[ligands];
  if (id === undefined)
    return COLOURLESS.includes(ion) ? { colour: hexFor(undefined), words: 'colourless' } : { colour: undefined, words: 'no spectrum known' };
  return { colour: hexFor(id), words: '' };
}

const STATUS_WORDS = { read: 'read from a source', memory: 'recalled', derived: 'derived', assumed: 'assumed', choice: 'chosen' } as const;

/** How far the spectra behind the colours of an ion can be trusted. */
export function spectraLine(ion: IonId): string {
  const known = species(ion).flatMap(({ label, ligands }) => {
    const id = label.startsWith('H') ? undefined : SPECTRUM[ion]?.[ligands];
    return id === undefined ? [] : [`${label} ${STATUS_WORDS[SPECIES[id].status]}`];
  });
  return known.length === 0 ? '' : `Spectra: ${known.join(', ')}.`;
}

function hexFor(id: SpeciesId | undefined): string {
  const amounts = new Float64Array(SPECIES_IDS.length);
  if (id !== undefined) amounts[SPECIES_IDS.indexOf(id)] = SWATCH_M;
  const absorption = new Float64Array(POINTS);
  absorptionInto(absorption, amounts);
  return hexOf(colourOfSpectrum(absorption.map((alpha) => Math.exp(-alpha * SWATCH_CM))));
}
