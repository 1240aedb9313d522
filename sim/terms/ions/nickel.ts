import type { ColouredForms, ExchangeConstants, InFlask, Ion, LigandField, PlotStyle } from './ion.ts';

export const ion: Ion = { name: 'nickel(II)', symbol: 'Ni²⁺', charge: 2, anionCharge: 0, molarMass: 58.693 };

export const exchange: ExchangeConstants = { logBeta: [-1.5, -4, -9, -12], logK: null, logKH: null, status: 'assumed' };

export const ligandField: LigandField = { dElectrons: 8, octahedralPreference_kJ_mol: 86 };

export const inFlask: InFlask = { Ksp: 5.48e-16, logK: { warm: 18.4, cool: 18.6 }, hydroxide: 'apple-green nickel hydroxide' };

// Aquo ion to 3 M, then a smooth shift to 9 M: Shchukarev et al. 1962 (read/assumed).
export const forms = {
  species: ['NiAquo', 'NiChloro'],
  rows: [
    [3, 1, 0],
    [9, 0, 1],
  ],
} as const satisfies ColouredForms;

/** Spectrum by number of chlorides. */
export const spectra = { 0: 'NiAquo', 1: 'NiChloro', 2: 'NiChloro' } as const;

export const line: PlotStyle = {
  colour: { light: '#c37d06', dark: '#f7c554' },
  label: { light: '#855300', dark: '#f7c554' },
  dash: '8 4',
  marker: 'square',
  width: 2,
};
