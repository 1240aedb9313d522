import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { FIELDS, type FieldPath, parameterDefaults } from '../../../sim/terms/fields.ts';
import { ION_IDS, type IonId } from '../../../sim/terms/ions.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import * as uptake from '../../../sim/chemistry/uptake.ts';
import distribution from '../../data/distribution.json' with { type: 'json' };
import { closeTo, curvesClose } from '../../exact/asserts.ts';
import { evenly } from '../../exact/even.ts';

/** The resin and the scale with which the constants were fitted; the default scale is another. */
const RESIN = { ...uptake.resinFrom(parameterDefaults()), F: 0.63 };
const D = (ion: IonId, c: number) => uptake.distributionCoefficient(ion, c, RESIN);

function scenario(curves: Scenario['curves'] = {}, changed: Partial<Record<FieldPath, number>> = {}): Scenario {
  const values = { ...parameterDefaults(), 'resin.curve_scale': 0.63, ...changed };
  return { id: 'uptake', title: '', purpose: '', notice: [], sources: [], ions: ION_IDS, liquids: {}, values, curves, faults: [], procedure: [], seed: 1 };
}

/** Molarity of the largest D_v, to 0.01 mol/L. */
function maximum(ion: IonId): number {
  const acids = Array.from({ length: 1300 }, (_, i) => (i + 1) / 100);
  return acids.reduce((best, c) => (D(ion, c) > D(ion, best) ? c : best));
}

test('the default resin holds 4.196 mol/L of fixed charge: 1.2 eq per 0.286 L (derived)', () => closeTo('Q', RESIN.Q, 4.196, { absolute: 5e-4 }, 'mol/L'));

describe('the built-in curves', () => {
  test.each(ION_IDS)('of %s are those of a separate program (regression, no outside check)', (ion) => {
    const { c, ...logs } = distribution.computed;
    curvesClose(
      'log10 D_v',
      c,
      c.map((acid) => Math.log10(D(ion, acid))),
      logs[ion],
      { absolute: 0.003 },
      { at: 'mol/L', value: '' },
    );
  });

  // The curves are fitted to these points, so this shows that the formula carries them, not that they are right.
  test.each([
    ['Co', 0.057, 0.136],
    ['Mn', 0.053, 0.097],
    ['Cu', 0.117, 0.281],
    ['Zn', 0.05, 0.088],
    ['Fe3', 0.054, 0.112],
    ['Cd', 0.181, 0.451],
    ['Fe2', 0.083, 0.147],
  ] as const)('of %s pass the recalled points with %d decades root mean square, %d at worst', (ion, rms, worst) => {
    const errors = distribution.recalled[ion].map(([c, log]) => Math.log10(D(ion, c) / 0.63) - log);
    closeTo('root mean square', Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length), rms, { absolute: 0.002 });
    closeTo('worst', Math.max(...errors.map(Math.abs)), worst, { absolute: 0.002 });
  });

  test.each([
    ['Co', 9, 0.6, 'Moore and Kraus 1952, recalled'],
    ['Zn', 2, 0.5, 'Kraus and Moore 1953, recalled'],
    ['Fe3', 9, 1, 'Kraus and Nelson 1955, recalled'],
    ['Cd', 4, 1, 'Marcus, J. Phys. Chem. 63 (1959) 1000, abstract, read'],
  ] as const)('of %s peak at %d mol/L within %d: %s', (ion, acid, within, _source) =>
    closeTo('molarity of the maximum', maximum(ion), acid, { absolute: within }, 'mol/L'),
  );

  test('of cobalt reach about 36 at 9 mol/L, 15 to 60 times the value at 4, and fall again to 12 (recalled)', () => {
    expect(D('Co', 9)).toBeGreaterThan(18);
    expect(D('Co', 9)).toBeLessThan(72);
    expect(D('Co', 9) / D('Co', 4)).toBeGreaterThan(15);
    expect(D('Co', 9) / D('Co', 4)).toBeLessThan(60);
    expect(D('Co', 12)).toBeLessThan(D('Co', 9));
  });

  test('of nickel stay below 0.35 throughout: not adsorbed (recalled)', () => {
    for (let c = 0; c <= 13; c += 0.1) expect(D('Ni', c)).toBeLessThan(0.35);
  });

  test('let iron(III) go at 0.5 mol/L and zinc at 0.005 (Kraus and Moore 1953, recalled)', () => {
    expect(D('Fe3', 0.5)).toBeLessThan(1);
    expect(D('Zn', 0.005)).toBeLessThan(1);
  });

  test('hold zinc and cadmium at 0.5 mol/L (Rosenberg et al., J. Radioanal. Nucl. Chem. 152 (1991) 117, secondary page, read; value recalled)', () => {
    expect(D('Zn', 0.5)).toBeGreaterThan(30);
    expect(D('Cd', 0.5)).toBeGreaterThan(30);
  });

  // Bed volumes to the peak of a trace are porosity + D_v; porosity 0.38 assumed. Separate program (regression).
  test.each(Object.keys(distribution.bedVolumes) as (keyof typeof distribution.bedVolumes)[])('put %s at the tabulated bed volumes', (ion) => {
    for (const [c, volumes] of distribution.bedVolumes[ion])
      closeTo(`bed volumes at ${c} mol/L`, 0.38 + D(ion, c), volumes, { relative: 0.003, absolute: 0.006 });
  });

  test('are zero in water and fall towards it as the number of chlorides and the Donnan factor say', () => {
    for (const ion of ION_IDS) expect(uptake.curveParts(ion, 0, RESIN)).toEqual({ coion: 0, exchange: 0 });
    // MCl4 goes as c^4, its exchange as (Q/x)^(z/2) with x = c²/Q: c² for CoCl4 2-, c³ for FeCl4 -. Cations with n chlorides go as
    // c^n and enter as (x/c)^(zM-n) = (c/Q)^(zM-n), so all of them as c^zM. The activity is c/0.99821, log b1 -1.5 and b2 -4 for Ni.
    const slope = (ion: IonId, part: 'coion' | 'exchange') => {
      const at = (c: number) => Math.log10(uptake.curveParts(ion, c, RESIN)[part]);
      return at(1e-5) - at(1e-6);
    };
    closeTo('slope of cobalt exchange', slope('Co', 'exchange'), 2, { absolute: 0.01 });
    closeTo('slope of iron exchange', slope('Fe3', 'exchange'), 3, { absolute: 0.01 });
    closeTo('slope of nickel uptake', slope('Ni', 'coion'), 2, { absolute: 0.01 });
    closeTo('slope of iron uptake', slope('Fe3', 'coion'), 3, { absolute: 0.01 });
    const inWater = 1 / RESIN.Q ** 2 + 10 ** -1.5 / 0.99821 / RESIN.Q + 1e-4 / 0.99821 ** 2;
    closeTo('nickel uptake', uptake.curveParts('Ni', 1e-7, RESIN).coion, RESIN.pore * inWater * 1e-14, { relative: 1e-3 });
  });

  test('are no negative or endless number for any resin a scenario may have', () => {
    const within = (path: FieldPath) => evenly(FIELDS[path].min, FIELDS[path].max);
    const resins = fc.tuple(within('resin.capacity_eq_per_L'), within('resin.pore_L_per_L'), within('resin.invasion'), within('resin.curve_scale'));
    fc.assert(
      fc.property(resins, evenly(0, 13), ([capacity, pore, kappa, F], c) => {
        const resin = { Q: capacity / pore, pore, kappa, F };
        const parts = ION_IDS.flatMap((ion) => Object.values(uptake.curveParts(ion, c, resin)));
        expect(parts.filter((part) => !(part >= 0 && part < 1e9))).toEqual([]);
      }),
      { seed: 17, examples: [[[1.2, 0.286, 0, 0.63], 9]] },
    );
  });

  test('of the default are per litre of bed at 0.42 kg of dry resin in it: 25 for cobalt at 9 mol/L, D 60 per kg recalled', () => {
    const { exchange } = uptake.curveParts('Co', 9, uptake.resinFrom(parameterDefaults()));
    closeTo('D_v', exchange, 0.42 * 10 ** 1.78, { relative: 0.1 });
    closeTo('over the fitted scale', exchange / uptake.curveParts('Co', 9, RESIN).exchange, 0.42 / 0.63, { relative: 1e-12 });
  });

  // Worked by hand at 9 mol/L, kappa 1: Q 4.2 holds y = 11.342 mol/L of chloride, Q 0.35 holds (0.35 + sqrt(0.1225 + 324))/2 = 9.177.
  test('of a resin with a twelfth of the sites are a twelfth, less what the weaker Donnan equality takes, (9.177/11.342)² = 0.655', () => {
    const twelfth = { ...RESIN, Q: RESIN.Q / 12 };
    const ratio = uptake.curveParts('Co', 9, twelfth).exchange / uptake.curveParts('Co', 9, RESIN).exchange;
    closeTo('exchange over that of the full resin', ratio, 0.655 / 12, { relative: 2e-3 });
    expect(uptake.distributionCoefficient('Co', 9, { ...twelfth, F: 0.42 })).toBeLessThan(2);
  });

  test('are exchanged anion in strong acid and free cation in water; nickel is always free', () => {
    expect(uptake.complexShare('Co', 9, RESIN)).toBeGreaterThan(0.98);
    expect(uptake.complexShare('Co', 0, RESIN)).toBeLessThan(0.2);
    for (const c of [0, 1, 9, 12]) expect(uptake.complexShare('Ni', c, RESIN)).toBe(0);
  });

  test('scale with F and not with the invasion factor where anions exchange, the other way round for co-ions', () => {
    const parts = (changed: Partial<uptake.Resin>) => uptake.curveParts('Co', 6, { ...RESIN, ...changed });
    expect(parts({ F: 1.26 }).exchange).toBeCloseTo(2 * parts({}).exchange, 12);
    expect(parts({ F: 1.26 }).coion).toBe(parts({}).coion);
    expect(parts({ kappa: 1.5 }).exchange).toBe(parts({}).exchange);
    expect(parts({ kappa: 1.5 }).coion).toBeGreaterThan(parts({}).coion);
  });
});

describe('tables for the run', () => {
  const read = (table: Float64Array, c: number) => {
    const place = uptake.tableIndex(c);
    const i = Math.min(Math.floor(place), uptake.TABLE_STEPS - 1);
    return table[i] + (place - i) * (table[i + 1] - table[i]);
  };

  test.each(ION_IDS)('give the curve of %s to 0.05 % of it, or 1e-6, above 0.01 mol/L', (ion) => {
    const table = uptake.uptakeTable(scenario(), ion);
    for (let c = 0.01; c <= 13; c *= 1.0137) {
      const parts = uptake.curveParts(ion, c, RESIN);
      closeTo(`co-ion part at ${c}`, read(table.coion, c), parts.coion, { relative: 5e-4, absolute: 1e-6 });
      closeTo(`exchange part at ${c}`, read(table.exchange, c), parts.exchange, { relative: 5e-4, absolute: 1e-6 });
    }
  });

  test('give density and viscosity of the CRC Handbook rows of 10, 20 and 38 % (read)', () => {
    const { density, viscosity } = uptake.liquidTable();
    for (const [c, rho, eta] of [
      [2.873, 1.0476, 1.161],
      [6.023, 1.098, 1.374],
      [12.388, 1.1886, 2.105],
    ]) {
      closeTo('density', read(density, c), rho, { absolute: 6e-4 }, 'g/mL');
      closeTo('viscosity', read(viscosity, c), eta, { relative: 0.0066 }, 'mPa s');
    }
  });

  test.each(ION_IDS)('give the share of the complex of %s at their entries, water as the limit of dilute acid', (ion) => {
    const share = uptake.shareTable(ion, RESIN);
    for (let i = 0; i <= uptake.TABLE_STEPS; i += 64) expect(share[i]).toBe(uptake.complexShare(ion, (i / uptake.TABLE_STEPS) ** 2 * 13, RESIN));
  });

  test('are those of their own resin, however many were asked for in between', () => {
    const at = (kappa: number) => uptake.uptakeTable(scenario({}, { 'resin.invasion': kappa }), 'Ni').coion[1500];
    const first = at(0.5);
    for (let n = 0; n < 60; n++) at(0.6 + n / 100);
    expect(at(0.5)).toBe(first);
    expect(at(1)).not.toBe(first);
  });

  // A table of the square root of the molarity is straight on this grid, so that any error of place shows.
  test('are read in straight lines between their entries, and hold their last one above 13 mol/L', () => {
    const roots = Float64Array.from({ length: uptake.TABLE_STEPS + 1 }, (_, i) => (i / uptake.TABLE_STEPS) * Math.sqrt(uptake.TABLE_TOP_M));
    for (const c of [0, 1e-5, 0.3, 4.4, 12.99, 13]) closeTo(`root of ${c}`, uptake.tableValue(roots, c), Math.sqrt(c), { absolute: 1e-12 });
    expect(uptake.tableValue(roots, 20)).toBe(Math.sqrt(13));
  });

  test('end at water and at 13 mol/L', () => {
    expect([uptake.tableIndex(0), uptake.tableIndex(13), uptake.tableIndex(14)]).toEqual([0, uptake.TABLE_STEPS, uptake.TABLE_STEPS]);
    expect(uptake.uptakeTable(scenario(), 'Co').exchange[0]).toBe(0);
  });
});

describe("a user's own curve", () => {
  test('takes the place of the built-in one: exchange for an ion that makes an anion, co-ion for nickel', () => {
    const own = scenario({
      Co: [
        [4, 2],
        [9, 40],
      ],
      Ni: [
        [4, 0.1],
        [9, 0.2],
      ],
    });
    expect(uptake.uptakeCurve(own, 'Co')(9)).toEqual({ coion: 0, exchange: expect.closeTo(40, 9) });
    expect(uptake.uptakeCurve(own, 'Ni')(9)).toEqual({ coion: expect.closeTo(0.2, 9), exchange: 0 });
    expect(uptake.uptakeCurve(own, 'Zn')(9)).toEqual(uptake.curveParts('Zn', 9, RESIN));
    const { coion, exchange } = uptake.uptakeTable(own, 'Co');
    const middle = Math.round(uptake.tableIndex(9));
    expect(Math.max(...coion)).toBe(0);
    closeTo('tabulated D_v near 9 mol/L', exchange[middle], 40, { relative: 0.01 });
  });

  test('falls as c² below its first point, so that water releases the ion, and is held above its last', () => {
    const curve = uptake.ownCurve([
      [1, 4],
      [3, 9],
    ]);
    closeTo('D_v at half the first molarity', curve(0.5), 1, { relative: 1e-12 });
    expect(curve(0)).toBe(0);
    closeTo('D_v beyond', curve(12), 9, { relative: 1e-9 });
  });

  test('goes from the value in water, where one is given', () => {
    const curve = uptake.ownCurve([
      [0, 2],
      [2, 6],
      [4, 6],
    ]);
    expect([curve(0), curve(1)]).toEqual([2, 3]);
    expect(
      [0, 5, 13].map(
        uptake.ownCurve([
          [0, 3],
          [0.5, 3],
          [12, 3],
        ]),
      ),
    ).toEqual([3, expect.closeTo(3, 12), expect.closeTo(3, 12)]);
  });

  test('keeps zeros', () => {
    const curve = uptake.ownCurve([
      [1, 0],
      [6, 0],
      [9, 20],
    ]);
    for (const c of [0, 0.5, 1, 3, 6]) expect(curve(c)).toBeLessThan(1e-15);
  });

  test('goes through its points and rises where they do', () => {
    const steps = fc.array(fc.tuple(evenly(0.1, 2), evenly(0, 2)), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(steps, (rows) => {
        let [acid, log] = [0, -3];
        const points = rows.map(([dc, dLog]) => [(acid += dc), 10 ** (log += dLog)] as const);
        const curve = uptake.ownCurve(points);
        expect(Math.max(...points.map(([c, value]) => Math.abs(curve(c) / value - 1)))).toBeLessThan(1e-9);
        const values = Array.from({ length: 200 }, (_, i) => curve((i / 199) * (acid + 1)));
        expect(Math.min(...values.slice(1).map((value, i) => value / values[i] - 1 || 0))).toBeGreaterThan(-1e-9);
      }),
      { seed: 23 },
    );
  });

  // Eight molarities of a full table; the built-in curve is the smooth curve to be found again.
  test.each(ION_IDS)('of eight points gives that of %s back within 0.06 decades', (ion) => {
    const curve = uptake.ownCurve([0.1, 0.5, 1, 2, 4, 6, 9, 12].map((c) => [c, D(ion, c)] as const));
    for (let c = 0.1; c <= 12; c += 0.05) closeTo(`log10 D_v at ${c}`, Math.log10(curve(c)), Math.log10(D(ion, c)), { absolute: 0.06 });
  });
});
