// Colour of liquids, beads and bed, and the styles of plotted lines. Other rooms import from here.
export { bedColour, type BedOptions, bedPainter, type BedPainter } from './bed.ts';
export { liquidColour, vesselStops } from './liquid.ts';
export type { Solution } from './mixture.ts';
export { type Marker, PLOT_STYLE, type PlotId, type Theme } from './plot.ts';
export { streakRamp } from './ramp.ts';
export { oklabOf } from './oklab.ts';
export { absorptionInto, POINTS, SPECIES, SPECIES_IDS, type SpeciesId } from './spectra.ts';
export { colourOfSpectrum, hexOf, type Rgb } from './srgb.ts';
export { type ColourWord, colourWord } from './words.ts';
