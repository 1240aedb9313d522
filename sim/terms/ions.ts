import * as Co from './ions/cobalt.ts';
import * as Ni from './ions/nickel.ts';
import * as Mn from './ions/manganese.ts';
import * as Cu from './ions/copper.ts';
import * as Zn from './ions/zinc.ts';
import * as Fe3 from './ions/iron3.ts';
import * as Fe2 from './ions/iron2.ts';
import * as Cd from './ions/cadmium.ts';
import type { ExchangeConstants, InFlask, Ion, LigandField, Measured, PlotStyle } from './ions/ion.ts';

// The metal ions the model knows. Keys are the short names used in scenarios, results and curves: Fe3 is iron(III), Fe2 iron(II).
// Each ion has a file in ./ions; the tables are written out one by one, so that the worker carries only those it needs.

const ALL = { Co: Co.ion, Ni: Ni.ion, Mn: Mn.ion, Cu: Cu.ion, Zn: Zn.ion, Fe3: Fe3.ion, Fe2: Fe2.ion, Cd: Cd.ion };

/** Short name of a metal ion. */
export type IonId = keyof typeof ALL;

type PerIon<Fact> = Readonly<Record<IonId, Fact>>;

export const IONS: PerIon<Ion> = ALL;

/** Name of the metal without its charge: "cobalt". */
export function elementOf(ion: IonId): string {
  return IONS[ion].name.replace(/\(.*\)/, '');
}

/** Symbol of the metal without its charge: "Co". */
export function symbolOf(ion: IonId): string {
  return ion.replace(/\d/, '');
}

export const ION_IDS = Object.keys(IONS) as readonly IonId[];

export const EXCHANGE_CONSTANTS: PerIon<ExchangeConstants> = {
  Co: Co.exchange,
  Ni: Ni.exchange,
  Mn: Mn.exchange,
  Cu: Cu.exchange,
  Zn: Zn.exchange,
  Fe3: Fe3.exchange,
  Fe2: Fe2.exchange,
  Cd: Cd.exchange,
};

export const MEASURED: Partial<PerIon<Measured>> = { Co: Co.measured, Fe3: Fe3.measured, Cd: Cd.measured };

export const LIGAND_FIELD: PerIon<LigandField> = {
  Co: Co.ligandField,
  Ni: Ni.ligandField,
  Mn: Mn.ligandField,
  Cu: Cu.ligandField,
  Zn: Zn.ligandField,
  Fe3: Fe3.ligandField,
  Fe2: Fe2.ligandField,
  Cd: Cd.ligandField,
};

export const IN_FLASK: PerIon<InFlask> = {
  Co: Co.inFlask,
  Ni: Ni.inFlask,
  Mn: Mn.inFlask,
  Cu: Cu.inFlask,
  Zn: Zn.inFlask,
  Fe3: Fe3.inFlask,
  Fe2: Fe2.inFlask,
  Cd: Cd.inFlask,
};

/** Which coloured species it is present as in solution. */
export const FORMS = { Co: Co.forms, Ni: Ni.forms, Mn: Mn.forms, Cu: Cu.forms, Zn: Zn.forms, Fe3: Fe3.forms, Fe2: Fe2.forms, Cd: Cd.forms };

/**
 * Share of the sorbed metal held as its chloro anion, against HCl outside the bead; the rest is free cation in the bead
 * liquid. Derived: 1 - D_v(Ni)/D_v(metal) of the recalled distribution curves, as Ni enters the beads as free cation only.
 */
export const ANION_SHARE = { Co: Co.anionShare, Cu: Cu.anionShare, Fe3: Fe3.anionShare };

/** Its spectra, by number of chlorides. */
export const SPECTRA_BY_CHLORIDES = { Co: Co.spectra, Ni: Ni.spectra, Mn: Mn.spectra, Cu: Cu.spectra, Fe3: Fe3.spectra };

/**
 * Computed by a search: cobalt in the blue between its band in the glass and its tetrachloro anion, nickel far from both, on the
 * yellow side where its own solution in strong acid lies; lightness spread, contrast at least 3.05:1 on #fff and #0f172a, worst
 * pair of the nine dE00 13 or more under normal, protan, deutan and tritan vision. Dash, marker and width are choices.
 */
export const LINES: PerIon<PlotStyle> = { Co: Co.line, Ni: Ni.line, Mn: Mn.line, Cu: Cu.line, Zn: Zn.line, Fe3: Fe3.line, Fe2: Fe2.line, Cd: Cd.line };
