import { describe, expect, it, test } from 'vitest';
import { CHEMISTRY } from '../../../sim/flask/balance.ts';
import { added, dissolved, passed, type Surroundings } from '../../../sim/flask/change.ts';
import { balanceIn, flaskOf, parted } from '../../../sim/flask/flask.ts';
import { alkaliFor } from '../../../sim/report/workup.ts';
import { flaskWith } from '../workup/cases.ts';

const AROUND: Surroundings = { chemistry: CHEMISTRY, room_C: 25, neutralisation: 55.8, pour: 1e9 };
const alkali = (Na: number) => ({ label: 'NaOH', molarity: { Na } });

test('4.00 mL of 9.00 M HCl takes 6.00 mL of 6.00 M NaOH (stoichiometry)', () => {
  expect(alkaliFor(4 * 9, 6)).toBeCloseTo(6, 10);
});

describe('heat of neutralisation', () => {
  it('warms 50 mL by 9.61 K when 36 mmol of acid meet 6 mL of 6 M alkali (55.8 kJ/mol, 4.18 J/mL/K, no loss)', () => {
    const flask = added(flaskWith({ Cl: 36 }, 44), alkali(6), 6, AROUND);
    const dilution = (1.1 * 36 * (36 / 44)) / (4.18 * 50);
    // The formula counts water formed alone; the heat of diluting 0.8 M acid comes on top.
    expect(Math.abs(flask.temperature_C - 25 - dilution - 9.61)).toBeLessThan(0.05);
  });

  it('warms 100 mL half as much', () => {
    const flask = added(flaskWith({ Cl: 36 }, 94), alkali(6), 6, AROUND);
    expect(Math.abs(flask.temperature_C - 25 - 4.8)).toBeLessThan(0.1);
  });

  it('is 2 % more with the school value', () => {
    const rise = (neutralisation: number) => added(flaskWith({ Cl: 10 }, 90), alkali(1), 10, { ...AROUND, neutralisation }).temperature_C - 25;
    expect(rise(57.1) / rise(55.8)).toBeCloseTo(57.1 / 55.8, 2);
  });

  it('of strong acid into water alone is about 11 kJ/mol from 9.5 mol/L (NBS tables, recalled)', () => {
    const flask = added(flaskWith({ Cl: 9.5 }, 1), { label: 'water', molarity: {} }, 999, AROUND);
    expect(Math.abs(((flask.temperature_C - 25) * 4.18 * 1000) / 9.5 - 11)).toBeLessThan(1);
  });

  it('goes away with time, faster in ice, and never below the room', () => {
    const warm = { ...flaskWith({ Cl: 1 }, 50), temperature_C: 45 };
    const bench = passed(warm, 5, AROUND, 'standing').temperature_C;
    const ice = passed(warm, 5, AROUND, 'ice').temperature_C;
    expect(bench).toBeLessThan(45);
    expect(ice).toBeLessThan(bench);
    expect(passed(warm, 600, AROUND, 'ice').temperature_C).toBeCloseTo(25, 6);
  });

  it('is taken up as ammonium thiocyanate dissolves (22.6 kJ/mol, CRC, recalled)', () => {
    const flask = dissolved(flaskWith({}, 50), { NH4: 1, SCN: 1 }, 13.14, 22.6, AROUND);
    expect(flask.temperature_C - 25).toBeCloseTo((-22.6 * 13.14) / (4.18 * 50), 1);
  });
});

describe('lumps of hydroxide', () => {
  const acid = flaskWith({ Cl: 0.9, Co: 0.25 }, 50);
  const lumpy = added(acid, alkali(6), 0.06, AROUND);

  it('form where strong alkali drops into nearly neutral cobalt, though the flask stays below the onset', () => {
    expect(lumpy.solid.Co ?? 0).toBeGreaterThan(0.001);
    expect(balanceIn(lumpy, CHEMISTRY).pH).toBeLessThan(7.5);
  });

  it('do not form while acid outweighs the drop', () => {
    expect(added(flaskWith({ Cl: 40, Co: 0.25 }, 50), alkali(6), 0.06, AROUND).solid.Co ?? 0).toBe(0);
  });

  it('do not form with dilute alkali as much', () => {
    const mild = added(acid, alkali(0.1), 0.36 / 0.1, AROUND);
    expect(mild.solid.Co ?? 0).toBeLessThan(lumpy.solid.Co ?? 0);
  });

  it('dissolve again when swirled, more slowly when left standing', () => {
    const held = lumpy.solid.Co ?? 0;
    const swirled = passed(lumpy, 1, AROUND, 'swirled').solid.Co ?? 0;
    const standing = passed(lumpy, 1, AROUND, 'standing').solid.Co ?? 0;
    expect(swirled).toBeLessThan(standing);
    expect(standing).toBeLessThan(held);
    expect(passed(lumpy, 10, AROUND, 'swirled').solid.Co ?? 0).toBeLessThan(1e-8);
  });

  it('bind alkali: the flask is more acid than after they have dissolved', () => {
    expect(balanceIn(lumpy, CHEMISTRY).pH).toBeLessThan(balanceIn(passed(lumpy, 10, AROUND, 'swirled'), CHEMISTRY).pH);
  });
});

describe('flask', () => {
  it('counts the chloride that came with the metals', () => {
    const flask = flaskOf({ volume_mL: 50, HCl_mmol: 30, Co_mmol: 0.5, Ni_mmol: 0.1, Fe3_mmol: 0.01 }, 20);
    expect(flask.amounts.Cl).toBeCloseTo(30 + 1 + 0.2 + 0.03, 12);
    expect(balanceIn(flask, CHEMISTRY).pH).toBeCloseTo(-Math.log10(0.6), 2);
  });

  it('is parted without loss', () => {
    const flask = { ...flaskWith({ Co: 0.5, Cl: 31 }, 100), solid: { Co: 0.1 } };
    const [taken, left] = parted(flask, 25.03);
    expect(taken.amounts.Co + left.amounts.Co).toBeCloseTo(0.5, 14);
    expect((taken.solid.Co ?? 0) + (left.solid.Co ?? 0)).toBeCloseTo(0.1, 14);
    expect(taken.amounts.Co).toBeCloseTo(0.5 * 0.2503, 14);
  });
});
