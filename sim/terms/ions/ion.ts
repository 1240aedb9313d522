import type { Status } from '../status.ts';

// What is written down about every metal ion. Each has a file of its own here, and sim/terms/ions.ts puts them into tables.

export interface Ion {
  readonly name: string;
  /** With its charge, for labels: Co²⁺. */
  readonly symbol: string;
  readonly charge: 2 | 3;
  /** Charge number of the tetrachloro anion that the resin takes up, positive; 0 if it makes none. */
  readonly anionCharge: 0 | 1 | 2;
  /** g/mol. IUPAC 2021 abridged standard atomic weights (from memory). */
  readonly molarMass: number;
}

/**
 * Constants that stand for exchange, not for spectroscopic speciation: log10, mol/kg.
 *
 * Least squares, with priors, through log10 D recalled from Kraus and Nelson, Proc. 1st Geneva Conf. 7 (1955) 113, Moore and Kraus,
 * J. Am. Chem. Soc. 74 (1952) 843, and Kraus and Moore, ibid. 75 (1953) 1460. Six constants an ion are not known one by one: only
 * the curve is meant. Its shape is good to about 0.2 in log10, its scale to 0.2 more; Cd and Fe(II) are the weakest. Ni assumed.
 */
export interface ExchangeConstants {
  /** Overall constants of MCl to MCl4. */
  readonly logBeta: readonly [number, number, number, number];
  /** Exchange of MCl4 against chloride; null: the ion makes no anion that the resin takes up. */
  readonly logK: number | null;
  /** Association of MCl4 with H+, which brings the fall in strong acid. */
  readonly logKH: number | null;
  readonly status: Status;
}

/** Overall constants of a measured speciation by number of chlorides, log10; the forms left out are not known. */
export interface Measured {
  readonly logBeta: Readonly<Partial<Record<number, number>>>;
  readonly source: string;
}

/** Why some ions make the tetrahedral MCl4 with ease. Not the whole story: Cu(II) still forms CuCl4 2-, because its tetrahedron flattens. */
export interface LigandField {
  readonly dElectrons: number;
  /** Stabilisation lost on going from six neighbours to four, kJ/mol: recalled, good to 10; zero by symmetry for d5 (high spin) and d10. */
  readonly octahedralPreference_kJ_mol: number;
}

/** What the ion does in the titration flask. */
export interface InFlask {
  /**
   * Solubility product of M(OH)z. Ni: CRC, recalled; a textbook page read gives 1.6e-16. Mn, Cu, Zn, Fe, Cd: CRC, recalled, one
   * figure is all that should be believed. Co stands for the fresh pink form and is a scenario parameter.
   */
  readonly Ksp: number;
  /**
   * log10 of the EDTA complex. Warm: Harris 8e Table 11-2 / Martell, Smith and Motekaitis, NIST 46; 25 °C, I = 0.1 M; recalled.
   * Cool: Schwarzenbach, 20 °C, I = 0.1 M; read in a pharmaceutical analysis text, Table 2.
   */
  readonly logK: { readonly warm: number; readonly cool: number };
  /** What its hydroxide looks like. */
  readonly hydroxide: string;
}

/** Coloured species of the metal against HCl, linear between rows, constant beyond them: HCl in mol/L and the share of each species. */
export interface ColouredForms {
  readonly species: readonly string[];
  readonly rows: readonly (readonly [HCl_M: number, ...shares: number[]])[];
}

export type Theme = 'light' | 'dark';

export type Marker = 'circle' | 'square' | 'triangle' | 'diamond' | 'cross' | 'triangle-down' | 'plus' | 'star' | 'none';

/** How a quantity is drawn in plots. */
export interface PlotStyle {
  /** Hex colour of the line on the page of each theme, at least 3:1 against it (WCAG 2.2, 1.4.11, read). */
  readonly colour: Readonly<Record<Theme, string>>;
  /** Hex colour of the label beside it, at least 4.5:1 on paper (1.4.3, read). */
  readonly label: Readonly<Record<Theme, string>>;
  /** SVG stroke-dasharray; empty is solid. No two are alike. */
  readonly dash: string;
  readonly marker: Marker;
  /** Stroke width, px. */
  readonly width: number;
}
