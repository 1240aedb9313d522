import type { ColouredForms, ExchangeConstants, InFlask, Ion, LigandField, PlotStyle } from './ion.ts';

export const ion: Ion = { name: 'manganese(II)', symbol: 'Mn²⁺', charge: 2, anionCharge: 2, molarMass: 54.938 };

export const exchange: ExchangeConstants = { logBeta: [-0.452, -1.455, -2.302, -4.761], logK: 0.939, logKH: -2.307, status: 'derived' };

export const ligandField: LigandField = { dElectrons: 5, octahedralPreference_kJ_mol: 0 };

export const inFlask: InFlask = { Ksp: 2e-13, logK: { warm: 13.89, cool: 13.8 }, hydroxide: 'off-white manganese hydroxide that browns in air' };

export const forms = { species: ['MnAquo'], rows: [[0, 1]] } as const satisfies ColouredForms;

/** Spectrum by number of chlorides. */
export const spectra = { 0: 'MnAquo' } as const;

export const line: PlotStyle = {
  colour: { light: '#763490', dark: '#8d5468' },
  label: { light: '#763490', dark: '#d0a0b2' },
  dash: '12 3 2 3 2 3',
  marker: 'triangle-down',
  width: 2,
};
