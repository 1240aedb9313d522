import type { ColouredForms, ExchangeConstants, InFlask, Ion, LigandField, PlotStyle } from './ion.ts';

export const ion: Ion = { name: 'iron(II)', symbol: 'Fe²⁺', charge: 2, anionCharge: 2, molarMass: 55.845 };

export const exchange: ExchangeConstants = { logBeta: [-0.512, -1.472, -2.713, -5.043], logK: 0.754, logKH: -2.208, status: 'derived' };

export const ligandField: LigandField = { dElectrons: 6, octahedralPreference_kJ_mol: 17 };

export const inFlask: InFlask = { Ksp: 4.9e-17, logK: { warm: 14.3, cool: 14.3 }, hydroxide: 'dirty green iron(II) hydroxide' };

// No visible band worth drawing (recalled).
export const forms = { species: [], rows: [[0]] } as const satisfies ColouredForms;

export const line: PlotStyle = {
  colour: { light: '#749868', dark: '#c3eab6' },
  label: { light: '#4d6c42', dark: '#c3eab6' },
  dash: '3 6',
  marker: 'plus',
  width: 2.5,
};
