import type { ColouredForms, ExchangeConstants, InFlask, Ion, LigandField, PlotStyle } from './ion.ts';

export const ion: Ion = { name: 'copper(II)', symbol: 'Cu²⁺', charge: 2, anionCharge: 2, molarMass: 63.546 };

export const exchange: ExchangeConstants = { logBeta: [-0.376, -0.203, -2.227, -1.943], logK: 0.734, logKH: -2.975, status: 'derived' };

export const ligandField: LigandField = { dElectrons: 9, octahedralPreference_kJ_mol: 64 };

export const inFlask: InFlask = { Ksp: 2.2e-20, logK: { warm: 18.78, cool: 18.8 }, hydroxide: 'pale blue copper hydroxide' };

// Derived: CuCl4 share from log b1..4 = -0.376, -0.203, -2.227, -1.943 (fitted to distribution curves); lower chloro complexes
// take the aquo spectrum.
export const forms = {
  species: ['CuAquo', 'CuCl4'],
  rows: [
    [0, 1, 0],
    [1, 0.997, 0.003],
    [2, 0.9525, 0.0475],
    [3, 0.7792, 0.2208],
    [4, 0.4706, 0.5294],
    [5, 0.2085, 0.7915],
    [6, 0.0801, 0.9199],
    [8, 0.0127, 0.9873],
    [12, 0.0009, 0.9991],
  ],
} as const satisfies ColouredForms;

export const anionShare = {
  species: ['CuCl4'],
  rows: [
    [0, 0],
    [0.5, 0.21],
    [1, 0.49],
    [2.5, 0.87],
    [3, 0.906],
    [4, 0.94],
    [9, 0.92],
    [12, 0.864],
  ],
} as const satisfies ColouredForms;

/** Spectrum by number of chlorides. */
export const spectra = { 0: 'CuAquo', 4: 'CuCl4' } as const;

export const line: PlotStyle = {
  colour: { light: '#316558', dark: '#7e9f7e' },
  label: { light: '#2b5a4e', dark: '#a2c2a2' },
  dash: '10 3 2 3',
  marker: 'diamond',
  width: 2,
};
