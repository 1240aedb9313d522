import type { ColouredForms, ExchangeConstants, InFlask, Ion, LigandField, Measured, PlotStyle } from './ion.ts';

export const ion: Ion = { name: 'iron(III)', symbol: 'Fe³⁺', charge: 3, anionCharge: 1, molarMass: 55.845 };

export const exchange: ExchangeConstants = { logBeta: [0.665, -0.044, -1.487, -3.431], logK: 4.142, logKH: -2.419, status: 'derived' };

export const measured: Measured = {
  logBeta: { 1: 0.62, 2: 0.62 - 0.7, 3: 0.62 - 0.7 - 1.4, 4: 0.62 - 0.7 - 1.4 - 1.92 },
  source:
    'stepwise log k2 (at least) -0.7, k3 -1.40, k4 -1.92: Marcus, J. Inorg. Nucl. Chem. 12 (1960) 287, abstract (read); k1 0.62 recalled; HFeCl₄ of strong acid left out',
};

export const ligandField: LigandField = { dElectrons: 5, octahedralPreference_kJ_mol: 0 };

export const inFlask: InFlask = { Ksp: 2.8e-39, logK: { warm: 25.1, cool: 25.1 }, hydroxide: 'rust-brown iron(III) hydroxide' };

// Assumed: FeCl4 share from log b1..4 = 0.665, -0.044, -1.487, -3.431 (fitted to distribution curves), plus 0.6 of FeCl3, 0.3
// of FeCl2 and 0.12 of FeCl for their weaker tails; hydrolysed in water alone.
export const forms = {
  species: ['FeChloro'],
  rows: [
    [0, 0.05],
    [0.5, 0.09],
    [1, 0.12],
    [2, 0.17],
    [3, 0.23],
    [4, 0.3],
    [5, 0.39],
    [6, 0.5],
    [7, 0.62],
    [8, 0.73],
    [9, 0.82],
    [10, 0.88],
    [12, 0.95],
  ],
} as const satisfies ColouredForms;

export const anionShare = {
  species: ['FeChloro'],
  rows: [
    [0, 0],
    [0.5, 0.46],
    [1, 0.83],
    [2.5, 0.989],
    [3, 0.995],
    [12, 1],
  ],
} as const satisfies ColouredForms;

/** Spectrum by number of chlorides. */
export const spectra = { 4: 'FeChloro' } as const;

export const line: PlotStyle = {
  colour: { light: '#8d280c', dark: '#ed3b04' },
  label: { light: '#8d280c', dark: '#ff8a63' },
  dash: '2 3',
  marker: 'triangle',
  width: 2,
};
