import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { CHEMISTRY } from '../../../sim/flask/balance.ts';
import { balanceIn } from '../../../sim/flask/flask.ts';
import { cobaltForms } from '../../../sim/flask/indicator.ts';
import { endPoint, equivalence, titrationCurve, titrationPoint } from '../../../sim/flask/titrate.ts';
import { type Portion, portionFlask, flaskWith, TITRATION } from '../workup/cases.ts';
import { evenly } from '../../exact/even.ts';

describe('50.00 mL of 5.00 mM cobalt with 10.00 mM EDTA at pH 6.00 without thiocyanate', () => {
  // Computed beforehand from log K' 11.709 (log K 16.45 recalled).
  it.each([
    [0, 2.301],
    [5, 2.439],
    [12.5, 2.699],
    [20, 3.146],
    [24, 3.869],
    [24.9, 4.874],
    [25, 7.093],
    [25.1, 9.311],
    [26, 10.311],
    [30, 11.01],
  ])('has its pCo after %f mL', (mL, pCo) => {
    const flask = flaskWith({ Cl: 0.5, Co: 0.25, Na: 0.02 * mL, Y: 0.01 * mL }, 50 + mL);
    expect(Math.abs(-Math.log10(balanceIn(flask, CHEMISTRY, 6).metals.Co.dissolved) - pCo)).toBeLessThan(0.005);
  });
});

describe('end point by eye', () => {
  // 25.00 mL of 5.0 mM cobalt, 25 mL acetone, 1.0 g NH4SCN; computed beforehand with the surrogate constants: illustrative.
  const cases: [string, Portion, number][] = [
    ['reference', {}, 12.43],
    ['acetate 2 per cobalt', { acetate_mmol: 0.25 }, 12.94],
    ['acetate 4 per cobalt', { acetate_mmol: 0.5 }, 12.43],
    ['start pH 4.0', { pH: 4 }, 12.58],
    ['start pH 3.5', { pH: 3.5 }, 16.9],
    ['acid left, little acetate', { acetate_mmol: 0.5, acid_mmol: 0.25 }, 13.85],
    ['acid left, 2 mmol acetate', { acetate_mmol: 2, acid_mmol: 0.25 }, 12.43],
    ['10 mL acetone', { acetone_mL: 10 }, 12.11],
    ['5 mL acetone', { acetone_mL: 5 }, 11.49],
    ['no acetone', { acetone_mL: 0 }, 9.2],
    ['0.5 g thiocyanate', { thiocyanate_g: 0.5 }, 12.0],
    ['0.2 g thiocyanate', { thiocyanate_g: 0.2 }, 7.4],
    ['nickel 0.5 %', { Ni_mmol: 0.000625 * 1 }, 12.49],
    ['nickel 1 %', { Ni_mmol: 0.00125 }, 12.55],
    ['nickel 2 %', { Ni_mmol: 0.0025 }, 12.67],
    ['nickel 5 %', { Ni_mmol: 0.00625 }, 13.04],
  ];

  it.each(cases)('%s', (_, portion, expected) => {
    expect(Math.abs(endPoint(portionFlask(portion), TITRATION) - expected)).toBeLessThan(0.04);
  });

  it('has its equivalence at 12.50 mL', () => {
    expect(equivalence(portionFlask(), 0.01)).toBeCloseTo(12.5, 10);
  });

  it('comes earlier for an eye that needs more blue', () => {
    const flask = portionFlask();
    expect(endPoint(flask, { ...TITRATION, threshold_A: 0.1 })).toBeLessThan(endPoint(flask, TITRATION));
  });

  it('moves late with acid left, early with less acetone, late with nickel', () => {
    const share = (min: number, max: number) => evenly(min, max);
    fc.assert(
      fc.property(share(0.4, 2), share(0.02, 0.2), share(8, 24), share(0.0005, 0.01), (acetate_mmol, acid_mmol, acetone_mL, Ni_mmol) => {
        const plain = endPoint(portionFlask({ acetate_mmol }), TITRATION);
        expect(endPoint(portionFlask({ acetate_mmol, acid_mmol }), TITRATION)).toBeGreaterThanOrEqual(plain - 0.01);
        expect(endPoint(portionFlask({ acetate_mmol, acetone_mL }), TITRATION)).toBeLessThan(plain);
        expect(endPoint(portionFlask({ acetate_mmol, Ni_mmol }), TITRATION)).toBeGreaterThan(plain);
      }),
      { seed: 21, numRuns: 25 },
    );
  });

  it('reads less nickel when titrated fast, for nickel takes up EDTA slowly', () => {
    const flask = portionFlask({ Ni_mmol: 0.00625 });
    expect(endPoint(flask, { ...TITRATION, pour: 60 })).toBeLessThan(endPoint(flask, TITRATION) - 0.2);
  });
});

describe('titration curve', () => {
  const flask = portionFlask({ acetate_mmol: 0.25 });
  const curve = titrationCurve(flask, TITRATION, 14, 57);

  it('frees two protons per cobalt: pH falls to about 3.6 with acetate 2 per cobalt', () => {
    // Computed beforehand: 6.0 -> 3.6.
    expect(curve[0].pH).toBeCloseTo(6, 3);
    expect(Math.abs(titrationPoint(flask, TITRATION, 12.5).pH - 3.6)).toBeLessThan(0.06);
  });

  it('only falls in absorbance and only rises in pCo', () => {
    for (let i = 1; i < curve.length; i++) {
      expect(curve[i].absorbance).toBeLessThan(curve[i - 1].absorbance);
      expect(curve[i].pCo).toBeGreaterThan(curve[i - 1].pCo);
    }
  });

  it('thins the acetone from 50 % to 40 % with 12.5 mL', () => {
    expect(curve[0].acetoneShare).toBeCloseTo(0.5, 10);
    expect(curve[50].acetoneShare).toBeCloseTo(0.4, 10);
  });
});

test('cobalt and thiocyanate in water alone stay pink; acetone turns them blue', () => {
  // Home experiment record and Umebayashi and Ishiguro 1996, J. Solution Chem. 25, 731: qualitative, read.
  expect(cobaltForms(0.26, 0).blueShare).toBeLessThan(0.01);
  expect(cobaltForms(0.26, 0.5).blueShare).toBeGreaterThan(0.5);
});
