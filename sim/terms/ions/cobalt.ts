import type { ColouredForms, ExchangeConstants, InFlask, Ion, LigandField, Measured, PlotStyle } from './ion.ts';

export const ion: Ion = { name: 'cobalt(II)', symbol: 'Co²⁺', charge: 2, anionCharge: 2, molarMass: 58.933 };

export const exchange: ExchangeConstants = { logBeta: [-0.664, -1.372, -2.897, -5.334], logK: 2.005, logKH: -2.044, status: 'derived' };

export const measured: Measured = {
  logBeta: { 1: -0.861, 4: -7.4 },
  source:
    'log β1 and β4 of three species in HCl at 25 °C: Uchikoshi et al., J. Solution Chem., about 2018, abstract (read); mean HCl activity in place of their chloride activity',
};

export const ligandField: LigandField = { dElectrons: 7, octahedralPreference_kJ_mol: 31 };

export const inFlask: InFlask = { Ksp: 1.6e-15, logK: { warm: 16.45, cool: 16.3 }, hydroxide: 'blue, then pink cobalt hydroxide that browns slowly in air' };

// Derived: log b1 = -0.861, log b4 = -7.40, three species, HCl, 298 K, read: Uchikoshi 2018, J. Solution Chem., abstract;
// with the mean activity of HCl as that of chloride.
export const forms = {
  species: ['CoAquo', 'CoCl', 'CoCl4'],
  rows: [
    [0, 1, 0, 0],
    [0.5, 0.95, 0.05, 0],
    [1, 0.8978, 0.1022, 0],
    [2, 0.7719, 0.2281, 0],
    [3, 0.6199, 0.3801, 0],
    [4, 0.4593, 0.5406, 0.0001],
    [5, 0.3145, 0.6848, 0.0008],
    [6, 0.2013, 0.7933, 0.0054],
    [6.5, 0.1575, 0.8291, 0.0134],
    [7, 0.1209, 0.8469, 0.0322],
    [7.5, 0.0902, 0.8361, 0.0738],
    [8, 0.0637, 0.7788, 0.1575],
    [8.5, 0.041, 0.6583, 0.3007],
    [9, 0.0231, 0.4843, 0.4926],
    [9.5, 0.0112, 0.3058, 0.683],
    [10, 0.0048, 0.1705, 0.8247],
    [10.5, 0.0019, 0.0878, 0.9102],
    [11, 0.0007, 0.0434, 0.9559],
    [12, 0.0001, 0.0099, 0.99],
  ],
} as const satisfies ColouredForms;

export const anionShare = {
  species: ['CoCl4'],
  rows: [
    [0, 0],
    [0.5, 0.03],
    [1, 0.03],
    [2.5, 0.25],
    [3, 0.39],
    [4, 0.68],
    [6, 0.936],
    [8, 0.979],
    [9, 0.983],
    [12, 0.966],
  ],
} as const satisfies ColouredForms;

/** Spectrum by number of chlorides. */
export const spectra = { 0: 'CoAquo', 1: 'CoCl', 4: 'CoCl4' } as const;

export const line: PlotStyle = {
  colour: { light: '#138fd2', dark: '#11a8f7' },
  label: { light: '#0b6294', dark: '#66c2fb' },
  dash: '',
  marker: 'circle',
  width: 2.5,
};
