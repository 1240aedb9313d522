import { CM_PER_UM } from '../terms/geometry.ts';
import { ION_IDS, type IonId } from '../terms/ions.ts';
import { addDissolvedInto, addSorbedInto } from './mixture.ts';
import { layerReflectance, resinAbsorption, sphereEfficiency } from './scatter.ts';
import { absorptionInto, POINTS, SPECIES_IDS, WAVELENGTHS_NM } from './spectra.ts';
import { type Rgb, spectrumColourInto } from './srgb.ts';

// Colour of the packed bed: absorbing beads that scatter light, with coloured liquid between them, behind glass.

/** What one place in the bed holds: mol/L between the beads, mmol per mL of bed in them. */
export interface BedCell {
  readonly HCl_M: number;
  readonly pore: Readonly<Partial<Record<IonId, number>>>;
  readonly resin: Readonly<Partial<Record<IonId, number>>>;
  /** Gas as a share of the space between the beads, 0 to 1. */
  readonly gasSaturation?: number;
}

export interface BedOptions {
  /** Liquid between the beads as a share of the bed. */
  readonly porosity: number;
  /** Bead diameter, µm. */
  readonly beadUm: number;
  /** Factor on the absorbance of the liquid between the beads, for faint colours; 1 is true. */
  readonly exaggerate?: number;
}

export interface BedPainter {
  /**
   * Writes red, green and blue (0 to 255) to `out` at `outAt`. Metal k of the painter's ions is read at `poreAt + k * stride`
   * of `pore` (mol/L) and at `resinAt + k * stride` of `resin` (mmol per mL of bed). Allocates nothing.
   */
  colourInto(
    out: Uint8Array | Uint8ClampedArray,
    outAt: number,
    HCl_M: number,
    pore: ArrayLike<number>,
    poreAt: number,
    resin: ArrayLike<number>,
    resinAt: number,
    gasSaturation?: number,
    stride?: number,
  ): void;
}

/** Scattering coefficient times bead diameter: S = 5 1/cm for 200 um, order from 0.75 (1-g) 1.5 (1-e) Q/d; assumed. */
const SCATTER = 0.1;
/** Scattering of a gas-filled bed over that of a wet one is 1 + this: beads no longer match their surroundings. Assumed. */
const GAS_SCATTER = 3;
/** Depth of bed that light samples, cm, with nothing behind it; assumed. */
const DEPTH_CM = 1;
/** Share of light reflected by the glass surface; assumed. */
const GLASS = 0.02;

/** Amount, mol/L, below which a metal is left out: no colour can show it. */
const FAINTEST = 1e-8;
/** Tables for linear interpolation: sphere efficiency to this optical thickness, layer reflectance to this sqrt(K/S). */
const SPHERE_TOP = 8;
const LAYER_TOP = 8;
/** Intervals per table; error of the reflectance at most 5e-5 (computed). */
const INTERVALS = 2048;

/** Colour of one place in the bed. */
export function bedColour(cell: BedCell, resinTintPerCm: number, options: BedOptions): Rgb {
  const optics = new BedOptics(resinTintPerCm, options);
  optics.clear();
  for (const ion of ION_IDS) optics.add(ion, cell.HCl_M, cell.pore[ion] ?? 0, cell.resin[ion] ?? 0);
  const [r, g, b] = optics.colour(cell.gasSaturation ?? 0);
  return [r, g, b];
}

/** Colours many cells with the same metals; `ions` gives their order in the arrays. */
export function bedPainter(ions: readonly IonId[], resinTintPerCm: number, options: BedOptions): BedPainter {
  const optics = new BedOptics(resinTintPerCm, options);
  optics.tabulate();
  return {
    colourInto(out, outAt, HCl_M, pore, poreAt, resin, resinAt, gasSaturation = 0, stride = 1) {
      optics.clear();
      for (let k = 0; k < ions.length; k++) optics.add(ions[k], HCl_M, pore[poreAt + k * stride], resin[resinAt + k * stride]);
      const colour = optics.colour(gasSaturation);
      for (let channel = 0; channel < 3; channel++) out[outAt + channel] = Math.round(255 * colour[channel]);
    },
  };
}

/** Scratch arrays and constants of one kind of bed. */
class BedOptics {
  private readonly porosity: number;
  /** Bead diameter, cm. */
  private readonly beadCm: number;
  private readonly exaggerate: number;
  private readonly tint: Float64Array;
  private readonly poreSpecies = new Float64Array(SPECIES_IDS.length);
  private readonly beadSpecies = new Float64Array(SPECIES_IDS.length);
  private readonly poreAbsorption = new Float64Array(POINTS);
  private readonly beadAbsorption = new Float64Array(POINTS);
  private readonly reflectance = new Float64Array(POINTS);
  private readonly channels = new Float64Array(3);
  private readonly wetScatter: number;
  private layerTable: Float64Array | null = null;
  private bare: Float64Array | null = null;
  private holdsMetal = false;

  constructor(resinTintPerCm: number, { porosity, beadUm, exaggerate = 1 }: BedOptions) {
    this.porosity = porosity;
    this.beadCm = beadUm * CM_PER_UM;
    this.wetScatter = SCATTER / this.beadCm;
    this.exaggerate = exaggerate;
    this.tint = Float64Array.from(WAVELENGTHS_NM, (nm) => resinAbsorption(resinTintPerCm, nm));
  }

  /** Prepares for many cells: wet beds, where S is the same everywhere, read their reflectance from a table. */
  tabulate(): void {
    const S = this.wetScatter;
    this.layerTable = tableOf((root) => layerReflectance(root * root * S, S, DEPTH_CM), LAYER_TOP);
    this.clear();
    this.bare = this.colour(0).slice();
  }

  clear(): void {
    this.holdsMetal = false;
    this.poreSpecies.fill(0);
    this.beadSpecies.fill(0);
  }

  add(ion: IonId, HCl_M: number, pore_M: number, sorbed: number): void {
    if (pore_M > FAINTEST) addDissolvedInto(this.poreSpecies, ion, HCl_M, pore_M);
    if (sorbed > FAINTEST) addSorbedInto(this.beadSpecies, ion, HCl_M, sorbed / (1 - this.porosity));
    this.holdsMetal ||= pore_M > FAINTEST || sorbed > FAINTEST;
  }

  /** The three channels, 0 to 1; overwritten by the next call. */
  colour(gasSaturation: number): Float64Array {
    if (this.bare !== null && !this.holdsMetal && gasSaturation === 0) return this.bare;
    absorptionInto(this.poreAbsorption, this.poreSpecies);
    absorptionInto(this.beadAbsorption, this.beadSpecies);
    const S = this.wetScatter * (1 + GAS_SCATTER * gasSaturation);
    const table = gasSaturation === 0 ? this.layerTable : null;
    const beads = (1.5 * (1 - this.porosity)) / this.beadCm;
    const liquid = this.porosity * (1 - gasSaturation) * this.exaggerate;
    for (let i = 0; i < POINTS; i++) {
      const tau = (this.beadAbsorption[i] + this.tint[i]) * this.beadCm;
      const flattened = tau < SPHERE_TOP ? lookUp(SPHERE_TABLE, tau / SPHERE_TOP) : sphereEfficiency(tau);
      const K = 2 * (beads * flattened + liquid * this.poreAbsorption[i]);
      const root = Math.sqrt(K / S);
      const layer = table !== null && root < LAYER_TOP ? lookUp(table, root / LAYER_TOP) : layerReflectance(K, S, DEPTH_CM);
      this.reflectance[i] = GLASS + (1 - GLASS) * layer;
    }
    spectrumColourInto(this.channels, this.reflectance);
    return this.channels;
  }
}

function tableOf(f: (x: number) => number, top: number): Float64Array {
  return Float64Array.from({ length: INTERVALS + 1 }, (_, i) => f((top * i) / INTERVALS));
}

/** Linear interpolation at a share of the table's range, 0 to below 1. */
function lookUp(table: Float64Array, share: number): number {
  const position = share * INTERVALS;
  const below = Math.floor(position);
  return table[below] + (position - below) * (table[below + 1] - table[below]);
}

const SPHERE_TABLE = tableOf(sphereEfficiency, SPHERE_TOP);
