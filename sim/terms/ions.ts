// The metal ions the model knows. Keys are the short names used in scenarios, results and curves.

/** Short name of a metal ion: Fe3 is iron(III), Fe2 is iron(II). */
export type IonId = 'Co' | 'Ni' | 'Mn' | 'Cu' | 'Zn' | 'Fe3' | 'Fe2' | 'Cd';

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

export const IONS: Readonly<Record<IonId, Ion>> = {
  Co: { name: 'cobalt(II)', symbol: 'Co²⁺', charge: 2, anionCharge: 2, molarMass: 58.933 },
  Ni: { name: 'nickel(II)', symbol: 'Ni²⁺', charge: 2, anionCharge: 0, molarMass: 58.693 },
  Mn: { name: 'manganese(II)', symbol: 'Mn²⁺', charge: 2, anionCharge: 2, molarMass: 54.938 },
  Cu: { name: 'copper(II)', symbol: 'Cu²⁺', charge: 2, anionCharge: 2, molarMass: 63.546 },
  Zn: { name: 'zinc(II)', symbol: 'Zn²⁺', charge: 2, anionCharge: 2, molarMass: 65.38 },
  Fe3: { name: 'iron(III)', symbol: 'Fe³⁺', charge: 3, anionCharge: 1, molarMass: 55.845 },
  Fe2: { name: 'iron(II)', symbol: 'Fe²⁺', charge: 2, anionCharge: 2, molarMass: 55.845 },
  Cd: { name: 'cadmium(II)', symbol: 'Cd²⁺', charge: 2, anionCharge: 2, molarMass: 112.41 },
};

export const ION_IDS = Object.keys(IONS) as readonly IonId[];
