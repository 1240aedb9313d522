import type { ColouredForms, ExchangeConstants, InFlask, Ion, LigandField, Measured, PlotStyle } from './ion.ts';

export const ion: Ion = { name: 'cadmium(II)', symbol: 'Cd²⁺', charge: 2, anionCharge: 2, molarMass: 112.41 };

export const exchange: ExchangeConstants = { logBeta: [2.081, 2.393, 2.163, 1.586], logK: 2.999, logKH: -1.418, status: 'derived' };

export const measured: Measured = {
  logBeta: { 1: 1.95, 2: 1.95 + 0.55, 3: 1.95 + 0.55 - 0.15, 4: 1.95 + 0.55 - 0.15 - 0.7 },
  source: 'stepwise log k1 to k4 1.95, 0.55, -0.15, -0.70: Marcus, J. Phys. Chem. 63 (1959) 1000, abstract (read); HCdCl₃ left out',
};

export const ligandField: LigandField = { dElectrons: 10, octahedralPreference_kJ_mol: 0 };

export const inFlask: InFlask = { Ksp: 7.2e-15, logK: { warm: 16.5, cool: 16.6 }, hydroxide: 'white cadmium hydroxide' };

// No visible band worth drawing (recalled).
export const forms = { species: [], rows: [[0]] } as const satisfies ColouredForms;

export const line: PlotStyle = {
  colour: { light: '#7f652e', dark: '#b2912e' },
  label: { light: '#6f5724', dark: '#cfae4c' },
  dash: '6 3 6 3 2 3',
  marker: 'star',
  width: 2,
};
