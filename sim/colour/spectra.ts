import type { Status } from '../terms/fields.ts';
import { exp } from '../math/elementary.ts';
import { square } from '../math/square.ts';

// Molar absorptivity of the coloured species as sums of Gaussian bands, 380 to 780 nm.
// Approximate spectra: few maxima could be read, most widths and heights are recalled or tuned by eye.

/** A dissolved species with a visible spectrum; the octahedral ions are named by what surrounds them. */
export type SpeciesId =
  | 'CoAquo' | 'CoCl' | 'CoCl4' | 'CoNCS' | 'CoY'
  | 'NiAquo' | 'NiChloro' | 'NiY'
  | 'CuAquo' | 'CuCl4'
  | 'FeChloro' | 'FeNCS' | 'MnAquo';

/** Maximum (nm), molar absorptivity there (L/mol/cm), full width at half maximum (nm). */
export type AbsorptionBand = readonly [max_nm: number, epsilon: number, width_nm: number];

export interface Species {
  readonly label: string;
  readonly bands: readonly AbsorptionBand[];
  readonly status: Status;
  readonly source: string;
}

export const SPECIES: Readonly<Record<SpeciesId, Species>> = {
  CoAquo: {
    label: '[Co(H2O)6]2+',
    bands: [[518, 4.28, 64], [469, 2.01, 66]],
    status: 'memory',
    source: 'maximum 510-511 nm and A ratios 486/500/526/546 to 511 nm .795 .926 .867 .504 read in class reports; height 4.8 recalled (class report 5.4-5.7)',
  },
  CoCl: {
    label: '[CoCl(H2O)5]+',
    bands: [[524, 6.6, 70], [476, 3.2, 72]],
    status: 'memory',
    source: 'existence read: Uchikoshi 2018, J. Solution Chem., abstract; spectrum recalled, low confidence',
  },
  CoCl4: {
    label: '[CoCl4]2-',
    bands: [[694, 490, 30], [665, 430, 38], [629, 270, 46], [607, 150, 34], [578, 35, 46], [530, 12, 44], [448, 5, 36]],
    status: 'memory',
    source: 'height 557-577 near 690-700 nm read in a textbook exercise (10 %); shape recalled; 578, 530, 448 nm tuned',
  },
  CoNCS: {
    label: '[Co(NCS)4]2- in about 50 % acetone',
    bands: [[623, 1400, 42], [588, 800, 50], [552, 170, 56], [656, 170, 52], [510, 25, 60]],
    status: 'memory',
    source: '625 nm read (ethyl acetate extract); height 1700-1900 recalled; red wing 656 nm tuned',
  },
  CoY: {
    label: 'CoY2- (EDTA)',
    bands: [[497, 12, 84], [460, 3.2, 54], [548, 4, 62]],
    status: 'memory',
    source: 'recalled, low confidence; 548 nm tuned until pink',
  },
  NiAquo: {
    label: '[Ni(H2O)6]2+',
    bands: [[394, 5.1, 58], [724, 1.75, 105], [657, 1.25, 95]],
    status: 'memory',
    source: 'maxima 393 and 725 nm read; heights and widths recalled (their sum is a plateau with its top at 699 nm)',
  },
  NiChloro: {
    label: 'Ni(II) in 9 M HCl, octahedral, effective',
    bands: [[414, 7, 72], [748, 2.4, 120], [682, 1.1, 105]],
    status: 'assumed',
    source: 'red shift without change of contour above 3 M HCl read: Shchukarev, Andreev and Burkov 1962, Dokl. AN SSSR 142(2); size of the shift tuned',
  },
  NiY: {
    label: 'NiY2- (EDTA)',
    bands: [[382, 12, 62], [588, 7, 120], [780, 9, 140], [990, 25, 230]],
    status: 'memory',
    source: 'recalled, medium confidence',
  },
  CuAquo: {
    label: '[Cu(H2O)6]2+',
    bands: [[807, 12, 228]],
    status: 'read',
    source: 'A at 807 nm of 20-60 mM gives 11.8-12.3, read in a class report; width fitted',
  },
  CuCl4: {
    label: '[CuCl4]2-',
    bands: [[380, 2000, 80], [435, 250, 90], [920, 90, 320]],
    status: 'memory',
    source: '380 nm band read in an abstract; rest recalled',
  },
  FeChloro: {
    label: '[FeCl4]- and lower chloro complexes',
    bands: [[315, 7300, 48], [363, 6900, 50], [425, 260, 84], [534, 1, 25], [690, 1, 40]],
    status: 'memory',
    source: 'charge-transfer bands recalled; 425 nm tail tuned',
  },
  FeNCS: {
    label: '[Fe(NCS)(H2O)5]2+ and higher complexes',
    bands: [[480, 7000, 120]],
    status: 'memory',
    source: 'maximum between 450 and 480 nm, thousands per mol/L/cm, further to the red with more thiocyanate: recalled, low confidence',
  },
  MnAquo: {
    label: 'Mn(II)',
    bands: [[401, 0.03, 10], [525, 0.018, 60]],
    status: 'memory',
    source: 'spin-forbidden bands recalled; invisible at 0.1 M in 1.5 cm',
  },
};

export const SPECIES_IDS = Object.keys(SPECIES) as readonly SpeciesId[];

/** Wavelengths of every tabulated spectrum, nm. The 10 nm step costs dE00 <= 0.01 against 5 nm (computed). */
export const WAVELENGTHS_NM: readonly number[] = Array.from({ length: 41 }, (_, i) => 380 + 10 * i);

/** Points of a tabulated spectrum. */
export const POINTS = WAVELENGTHS_NM.length;

/** Molar absorptivity (decadic, L/mol/cm) at one wavelength. */
export function molarAbsorptivity(species: SpeciesId, wavelength_nm: number): number {
  let sum = 0;
  for (const [max_nm, epsilon, width_nm] of SPECIES[species].bands) {
    sum += epsilon * exp(-4 * Math.LN2 * square((wavelength_nm - max_nm) / width_nm));
  }
  return sum;
}

/** Napierian absorption, 1/cm, of `amounts` (mol/L in the order of SPECIES_IDS) on the wavelength grid. */
export function absorptionInto(out: Float64Array, amounts: Float64Array): void {
  out.fill(0);
  for (let k = 0; k < ABSORPTIVITY.length; k++) {
    const table = ABSORPTIVITY[k];
    const amount = amounts[k];
    if (amount > 0) for (let i = 0; i < POINTS; i++) out[i] += amount * table[i];
  }
}

const ABSORPTIVITY: readonly Float64Array[] = SPECIES_IDS.map((id) =>
  Float64Array.from(WAVELENGTHS_NM, (nm) => Math.LN10 * molarAbsorptivity(id, nm)),
);
