import { ANION_SHARE, FORMS, ION_IDS, type IonId } from '../terms/ions.ts';
import { SPECIES_IDS, type SpeciesId } from './spectra.ts';

// Which coloured species a metal is present as, in hydrochloric acid between the beads and inside them.
// For colour only: uptake is computed elsewhere, from operational constants fitted to distribution curves.

/** Species added as such, on top of the metals in `ions`. */
export type ExtraId = 'CoNCS' | 'CoY' | 'NiY' | 'FeNCS';

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

/** The species named in the files of the ions are those of spectra.ts. */
const FORMS_OF: Readonly<Record<IonId, Forms>> = FORMS;
const SORBED_ANION: Readonly<Partial<Record<IonId, Forms>>> = ANION_SHARE;

/** Adds the species of `amount` mol/L of a metal in solution; `out` is in the order of SPECIES_IDS. */
export function addDissolvedInto(out: Float64Array, ion: IonId, HCl_M: number, amount: number): void {
  addFormsInto(out, FORMS_OF[ion], HCl_M, amount);
}

/** Adds the species of `amount` mol per litre of beads of a sorbed metal. */
export function addSorbedInto(out: Float64Array, ion: IonId, HCl_M: number, amount: number): void {
  const anion = SORBED_ANION[ion];
  const share = anion === undefined ? 0 : shareAt(anion.rows, rowBelow(anion.rows, HCl_M), HCl_M, 1);
  if (anion !== undefined) addFormsInto(out, anion, HCl_M, amount);
  addFormsInto(out, FORMS_OF[ion], HCl_M, (1 - share) * amount);
}

/** mol/L of every species of a solution. */
export function speciesInto(out: Float64Array, solution: Solution): void {
  out.fill(0);
  for (const ion of ION_IDS) addDissolvedInto(out, ion, solution.HCl_M, solution.ions[ion] ?? 0);
  const extra = solution.extra;
  if (extra === undefined) return;
  for (const id of EXTRA_IDS) out[SPECIES_IDS.indexOf(id)] += Math.max(0, extra[id] ?? 0);
}

const EXTRA_IDS: readonly ExtraId[] = ['CoNCS', 'CoY', 'NiY', 'FeNCS'];

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
