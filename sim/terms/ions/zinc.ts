import type { ColouredForms, ExchangeConstants, InFlask, Ion, LigandField, PlotStyle } from './ion.ts';

export const ion: Ion = { name: 'zinc(II)', symbol: 'Zn²⁺', charge: 2, anionCharge: 2, molarMass: 65.38 };

export const exchange: ExchangeConstants = { logBeta: [-0.016, -0.104, -0.379, -0.338], logK: 2.458, logKH: -1.466, status: 'derived' };

export const ligandField: LigandField = { dElectrons: 10, octahedralPreference_kJ_mol: 0 };

export const inFlask: InFlask = { Ksp: 3e-17, logK: { warm: 16.5, cool: 16.7 }, hydroxide: 'white zinc hydroxide' };

// No visible band worth drawing (recalled).
export const forms = { species: [], rows: [[0]] } as const satisfies ColouredForms;

export const line: PlotStyle = {
  colour: { light: '#00080a', dark: '#1f5dd9' },
  label: { light: '#00080a', dark: '#8db0ff' },
  dash: '4 2',
  marker: 'cross',
  width: 2,
};
