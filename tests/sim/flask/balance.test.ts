import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { balanceOf, CHEMISTRY, cobaltOnset, onsetPH } from '../../../sim/flask/balance.ts';
import { KSP_COBALT } from '../../../sim/flask/constants.ts';
import { rootOf } from '../../../sim/math/root.ts';
import { chemistryWith, totals } from '../workup/cases.ts';
import { solveByNewton } from '../workup/newton.ts';
import { evenly } from '../../exact/even.ts';

// Check values were computed beforehand by bisection on the charge balance with Kw = 1e-14 (status: computed), unless a
// source is named.

const high = chemistryWith(5.92e-15);

/** 50.00 mL of 0.1000 M HCl, with or without 5.00 mM CoCl2, after mL of 0.1000 M NaOH and of 1.000 M acetic acid. */
function neutralised(NaOH_mL: number, Co_mmol = 0, acetic_mL = 0) {
  return balanceOf(totals({ Cl: 5 + 2 * Co_mmol, Co: Co_mmol, Na: 0.1 * NaOH_mL, Ac: acetic_mL }, 50 + NaOH_mL + acetic_mL), high);
}

describe('strong acid and alkali', () => {
  it.each([
    [0, 1.0],
    [25, 1.48],
    [40, 1.95],
    [49, 3.0],
    [49.9, 4.0],
    [50, 7.0],
    [50.1, 10.0],
    [51, 11.0],
    [60, 11.96],
  ])('has the pH of the closed form after %f mL of alkali', (mL, pH) => {
    expect(Math.abs(neutralised(mL).pH - pH)).toBeLessThan(0.01);
  });

  it('goes below pH 0 in strong acid', () => {
    expect(balanceOf(totals({ Cl: 9 }), high).pH).toBeCloseTo(-Math.log10(9), 6);
  });
});

test('0.1000 M acetic acid has pH 2.88 (Ka 1.75e-5; textbook value)', () => {
  expect(Math.abs(balanceOf(totals({ Ac: 0.1 }), high).pH - 2.88)).toBeLessThan(0.01);
});

describe('onset of cobalt hydroxide', () => {
  it.each([
    // Ksp 5.92e-15 of CRC-type tables, read on a secondary page; 2.5e-16 Kelter, Mosher and Scott 2009, Table A5.4, read.
    [KSP_COBALT.high.value, 8.04],
    [KSP_COBALT.low.value, 7.35],
  ])('at 5.0 mM and Ksp %f is at its pH', (Ksp, pH) => {
    expect(Math.abs(onsetPH('Co', 0.005, Ksp, 14) - pH)).toBeLessThan(0.01);
  });

  it('is a band from 7.35 to 8.04 at 5.0 mM, never one pH', () => {
    const [low, high_] = cobaltOnset(0.005);
    expect(Math.abs(low - 7.35)).toBeLessThan(0.02);
    expect(Math.abs(high_ - 8.04)).toBeLessThan(0.02);
  });

  it('is where the balance first finds a solid', () => {
    const onset = onsetPH('Co', 0.005, 5.92e-15, 14);
    const at = (pH: number) => balanceOf(totals({ Cl: 0.01, Co: 0.005 }), high, { pH }).metals.Co.solid;
    expect(at(onset - 0.001)).toBe(0);
    expect(at(onset + 0.001)).toBeGreaterThan(0);
  });
});

describe('acid with cobalt', () => {
  it.each([
    [50, 7.0],
    [50.1, 8.19],
    [51, 8.24],
    [52.5, 8.34],
    [54, 8.54],
    [55, 9.36],
    [56, 10.97],
    [60, 11.66],
  ])('has its pH after %f mL of alkali', (mL, pH) => {
    expect(Math.abs(neutralised(mL, 0.25).pH - pH)).toBeLessThan(0.02);
  });

  it.each([
    [52.5, 0.125],
    [54.9, 0.0056],
  ])('has its dissolved cobalt after %f mL of alkali', (mL, mmol) => {
    expect(Math.abs(neutralised(mL, 0.25).metals.Co.dissolved * (50 + mL) - mmol)).toBeLessThan(0.001);
  });

  it.each([
    [52.5, 0.264],
    [55, 0.529],
    [56, 0.634],
    [60, 1.057],
  ])('far basic by %f mL takes its acetic acid to pH 6', (mL, acetic) => {
    const found = rootOf((x) => neutralised(mL, 0.25, x).pH - 6, 0.01, 5);
    expect(Math.abs(found - acetic)).toBeLessThan(0.005);
  });
});

describe('balance against a damped Newton solution in log concentrations', () => {
  const pKa = CHEMISTRY.edta.pKa;
  const betaY = pKa.map((_, i) => 10 ** pKa.slice(pKa.length - 1 - i).reduce((a, b) => a + b, 0));
  const constants = {
    Kw: 10 ** -CHEMISTRY.pKw,
    KaAc: 10 ** -CHEMISTRY.pKaAcetic,
    KaNH4: 10 ** -CHEMISTRY.pKaAmmonium,
    betaY,
    KCo: 10 ** 16.45,
    KNi: 10 ** 18.4,
    KspCo: CHEMISTRY.Ksp.Co,
  };
  // The reference knows no nickel hydroxide.
  const chemistry = { ...CHEMISTRY, Ksp: { ...CHEMISTRY.Ksp, Ni: 1 } };

  it.each([
    ['acid eluate', { Cl: 0.37, Na: 0, Ac: 0, NH4: 0, SCN: 0, Y: 0, Co: 0.005, Ni: 0.0001 }],
    ['half precipitated', { Cl: 0.06, Na: 0.0545, Ac: 0, NH4: 0, SCN: 0, Y: 0, Co: 0.005, Ni: 0 }],
    ['far basic', { Cl: 0.06, Na: 0.08, Ac: 0, NH4: 0, SCN: 0, Y: 0, Co: 0.005, Ni: 0 }],
    ['acetate buffer', { Cl: 0.06, Na: 0.13, Ac: 0.09, NH4: 0, SCN: 0, Y: 0, Co: 0.005, Ni: 0.0001 }],
    ['indicator in', { Cl: 0.06, Na: 0.13, Ac: 0.09, NH4: 0.26, SCN: 0.26, Y: 0, Co: 0.0025, Ni: 0.0001 }],
    ['half titrated', { Cl: 0.06, Na: 0.1325, Ac: 0.09, NH4: 0.26, SCN: 0.26, Y: 0.00125, Co: 0.0025, Ni: 0.0001 }],
    ['at equivalence', { Cl: 0.06, Na: 0.135, Ac: 0.09, NH4: 0.26, SCN: 0.26, Y: 0.0025, Co: 0.0025, Ni: 0 }],
    ['beyond, hardly buffered', { Cl: 0.006, Na: 0.0104, Ac: 0.005, NH4: 0.2, SCN: 0.2, Y: 0.0026, Co: 0.0025, Ni: 0 }],
    ['ammonium made basic', { Cl: 0.06, Na: 0.2, Ac: 0.05, NH4: 0.26, SCN: 0.26, Y: 0.001, Co: 0.0025, Ni: 0 }],
  ])('agrees: %s', (_, system) => {
    const reference = solveByNewton(system, constants);
    // Thiocyanate complexes are left out on both sides: no cobalt side reactions without SCN in the metal balance.
    const ours = balanceOf({ ...totals(system), SCN: 0, Cl: system.Cl + system.SCN }, chemistry);
    expect(ours.pH).toBeCloseTo(reference.pH, 6);
    expect(ours.metals.Co.dissolved + ours.metals.Co.edta).toBeCloseTo(reference.dissolvedCo, 8);
  });
});

describe('laws of the balance', () => {
  const amount = (max: number) => evenly(0, max);
  const flask = fc.record({
    Cl: amount(1),
    Na: amount(1),
    Ac: amount(0.5),
    NH4: amount(0.3),
    SCN: amount(0.3),
    Y: amount(0.01),
    Co: amount(0.02),
    Ni: amount(0.01),
    Zn: amount(0.01),
    Fe3: amount(0.005),
  });

  it('lets pH fall with acid and rise with alkali', () => {
    fc.assert(
      fc.property(flask, evenly(1e-4, 0.5), (some, more) => {
        const pH = balanceOf(totals(some)).pH;
        expect(balanceOf(totals({ ...some, Cl: some.Cl + more })).pH).toBeLessThanOrEqual(pH + 1e-9);
        expect(balanceOf(totals({ ...some, Na: some.Na + more })).pH).toBeGreaterThanOrEqual(pH - 1e-9);
      }),
      { seed: 11, numRuns: 150 },
    );
  });

  it('keeps every metal and all EDTA', () => {
    fc.assert(
      fc.property(flask, amount(0.6), (some, acetoneShare) => {
        const { metals, freeEdta } = balanceOf(totals(some), CHEMISTRY, { acetoneShare });
        let bound = 0;
        for (const ion of ['Co', 'Ni', 'Zn', 'Fe3'] as const) {
          const { dissolved, edta, solid } = metals[ion];
          bound += edta;
          expect(Math.min(dissolved, edta, solid)).toBeGreaterThanOrEqual(0);
          expect(dissolved + edta + solid).toBeCloseTo(some[ion], 12);
        }
        expect(freeEdta + bound).toBeCloseTo(some.Y, 12);
      }),
      { seed: 12, numRuns: 150 },
    );
  });
});
