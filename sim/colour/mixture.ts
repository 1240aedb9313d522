import { ION_IDS, type IonId } from '../terms/ions.ts';
import { SPECIES_IDS, type SpeciesId } from './spectra.ts';

// Which coloured species a metal is present as, in hydrochloric acid between the beads and inside them.
// For colour only: uptake is computed elsewhere, from operational constants fitted to distribution curves.

/** Species added as such, on top of the metals in `ions`. */
export type ExtraId = 'CoNCS' | 'CoY' | 'NiY';

/** What is dissolved, mol/L; `ions` leaves out what `extra` holds. */
export interface Solution {
  readonly HCl_M: number;
  readonly ions: Readonly<Partial<Record<IonId, number>>>;
  readonly extra?: Readonly<Partial<Record<ExtraId, number>>>;
}

/** HCl (mol/L) and the share of each species there. */
type Row = readonly [HCl_M: number, ...shares: number[]];

interface Forms {
  readonly species: readonly SpeciesId[];
  readonly rows: readonly Row[];
}

/**
 * Species of each metal against HCl, linear between rows, constant beyond them.
 * Co (derived): log b1 = -0.861, log b4 = -7.40, three species, HCl, 298 K, read: Uchikoshi 2018, J. Solution Chem., abstract;
 * with the mean activity of HCl as that of chloride.
 * Ni (read/assumed): aquo ion to 3 M, then a smooth shift to 9 M, Shchukarev et al. 1962.
 * Cu (derived): CuCl4 share from log b1..4 = -0.376, -0.203, -2.227, -1.943 (fitted to distribution curves); lower chloro
 * complexes take the aquo spectrum.
 * Fe3 (assumed): FeCl4 share from log b1..4 = 0.665, -0.044, -1.487, -3.431 (fitted likewise), plus 0.6 of FeCl3, 0.3 of
 * FeCl2 and 0.12 of FeCl for their weaker tails; hydrolysed in water alone.
 * Fe2, Zn, Cd (recalled): no visible band worth drawing.
 */
const FORMS: Readonly<Record<IonId, Forms>> = {
  Co: {
    species: ['CoAquo', 'CoCl', 'CoCl4'],
    rows: [
      [0, 1, 0, 0], [0.5, 0.95, 0.05, 0], [1, 0.8978, 0.1022, 0], [2, 0.7719, 0.2281, 0], [3, 0.6199, 0.3801, 0],
      [4, 0.4593, 0.5406, 0.0001], [5, 0.3145, 0.6848, 0.0008], [6, 0.2013, 0.7933, 0.0054],
      [6.5, 0.1575, 0.8291, 0.0134], [7, 0.1209, 0.8469, 0.0322], [7.5, 0.0902, 0.8361, 0.0738],
      [8, 0.0637, 0.7788, 0.1575], [8.5, 0.041, 0.6583, 0.3007], [9, 0.0231, 0.4843, 0.4926],
      [9.5, 0.0112, 0.3058, 0.683], [10, 0.0048, 0.1705, 0.8247], [10.5, 0.0019, 0.0878, 0.9102],
      [11, 0.0007, 0.0434, 0.9559], [12, 0.0001, 0.0099, 0.99],
    ],
  },
  Ni: { species: ['NiAquo', 'NiChloro'], rows: [[3, 1, 0], [9, 0, 1]] },
  Mn: { species: ['MnAquo'], rows: [[0, 1]] },
  Cu: {
    species: ['CuAquo', 'CuCl4'],
    rows: [[0, 1, 0], [1, 0.997, 0.003], [2, 0.9525, 0.0475], [3, 0.7792, 0.2208], [4, 0.4706, 0.5294], [5, 0.2085, 0.7915], [6, 0.0801, 0.9199], [8, 0.0127, 0.9873], [12, 0.0009, 0.9991]],
  },
  Zn: { species: [], rows: [[0]] },
  Fe3: {
    species: ['FeChloro'],
    rows: [[0, 0.05], [0.5, 0.09], [1, 0.12], [2, 0.17], [3, 0.23], [4, 0.3], [5, 0.39], [6, 0.5], [7, 0.62], [8, 0.73], [9, 0.82], [10, 0.88], [12, 0.95]],
  },
  Fe2: { species: [], rows: [[0]] },
  Cd: { species: [], rows: [[0]] },
};

/**
 * Share of the sorbed metal held as its chloro anion, against HCl outside the bead; the rest is free cation in the bead
 * liquid. Derived: 1 - D_v(Ni)/D_v(metal) of the recalled distribution curves, as Ni enters the beads as free cation only.
 */
const ANION_SHARE: Readonly<Partial<Record<IonId, Forms>>> = {
  Co: { species: ['CoCl4'], rows: [[0, 0], [0.5, 0.03], [1, 0.03], [2.5, 0.25], [3, 0.39], [4, 0.68], [6, 0.936], [8, 0.979], [9, 0.983], [12, 0.966]] },
  Cu: { species: ['CuCl4'], rows: [[0, 0], [0.5, 0.21], [1, 0.49], [2.5, 0.87], [3, 0.906], [4, 0.94], [9, 0.92], [12, 0.864]] },
  Fe3: { species: ['FeChloro'], rows: [[0, 0], [0.5, 0.46], [1, 0.83], [2.5, 0.989], [3, 0.995], [12, 1]] },
};

/** Adds the species of `amount` mol/L of a metal in solution; `out` is in the order of SPECIES_IDS. */
export function addDissolvedInto(out: Float64Array, ion: IonId, HCl_M: number, amount: number): void {
  addFormsInto(out, FORMS[ion], HCl_M, amount);
}

/** Adds the species of `amount` mol per litre of beads of a sorbed metal. */
export function addSorbedInto(out: Float64Array, ion: IonId, HCl_M: number, amount: number): void {
  const anion = ANION_SHARE[ion];
  const share = anion === undefined ? 0 : shareAt(anion.rows, rowBelow(anion.rows, HCl_M), HCl_M, 1);
  if (anion !== undefined) addFormsInto(out, anion, HCl_M, amount);
  addFormsInto(out, FORMS[ion], HCl_M, (1 - share) * amount);
}

/** mol/L of every species of a solution. */
export function speciesInto(out: Float64Array, solution: Solution): void {
  out.fill(0);
  for (const ion of ION_IDS) addDissolvedInto(out, ion, solution.HCl_M, solution.ions[ion] ?? 0);
  const extra = solution.extra;
  if (extra === undefined) return;
  for (const id of EXTRA_IDS) out[SPECIES_IDS.indexOf(id)] += Math.max(0, extra[id] ?? 0);
}

const EXTRA_IDS: readonly ExtraId[] = ['CoNCS', 'CoY', 'NiY'];

function addFormsInto(out: Float64Array, forms: Forms, HCl_M: number, amount: number): void {
  if (!(amount > 0) || forms.species.length === 0) return;
  const below = rowBelow(forms.rows, HCl_M);
  for (let k = 0; k < forms.species.length; k++) {
    out[SPECIES_IDS.indexOf(forms.species[k])] += amount * shareAt(forms.rows, below, HCl_M, k + 1);
  }
}

function rowBelow(rows: readonly Row[], HCl_M: number): number {
  let below = 0;
  while (below < rows.length - 1 && rows[below + 1][0] <= HCl_M) below++;
  return below;
}

function shareAt(rows: readonly Row[], below: number, HCl_M: number, k: number): number {
  const from = rows[below];
  if (below === rows.length - 1 || HCl_M <= from[0]) return from[k];
  const to = rows[below + 1];
  return from[k] + ((HCl_M - from[0]) / (to[0] - from[0])) * (to[k] - from[k]);
}
