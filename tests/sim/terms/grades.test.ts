import { describe, expect, it, test } from 'vitest';
import { FIELDS, type FieldPath, parameterDefaults } from '../../../sim/terms/fields.ts';
import { cellsFor, packingHeight } from '../../../sim/terms/cells.ts';
import { CROSS_LINKINGS, DEFAULT_GRADE, GRADE_NAMES, GRADES, sauterMean, SIEVE_CLASSES } from '../../../sim/terms/grades.ts';
import { readScenario } from '../../../sim/input/scenario.ts';
import { closeTo } from '../../exact/asserts.ts';

const SCENARIO = { title: 't', purpose: 'p', ions: ['Co'], liquids: { water: { label: 'water', HCl_M: 0 } } };

function valuesOf(groups: Record<string, unknown>) {
  const read = readScenario({ ...SCENARIO, ...groups }, 'x');
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.scenario.values;
}

describe('a grade of resin', () => {
  // Openings of the sieves, µm: ASTM E11, No. 20, 50, 100, 200 (recalled: 850, 300, 150, 75).
  it.each([
    ['20-50 mesh', 300, 850],
    ['50-100 mesh', 150, 300],
    ['100-200 mesh', 75, 150],
  ] as const)('of %s has wet beads at least as large as the sieves it passed dry', (sieve, dryLeast, dryMost) => {
    expect(SIEVE_CLASSES[sieve].wetLeast_um).toBeGreaterThanOrEqual(dryLeast);
    expect(SIEVE_CLASSES[sieve].wetMost_um).toBeGreaterThanOrEqual(dryMost);
  });

  it('is finer with more mesh and holds more, but shrinks less, with more cross-linking', () => {
    const bead = (sieve: string) => GRADES[`${sieve}, 8 % cross-linked` as (typeof GRADE_NAMES)[number]]['bed.bead_um'].value;
    expect(bead('20-50 mesh')).toBeGreaterThan(bead('50-100 mesh'));
    expect(bead('50-100 mesh')).toBeGreaterThan(bead('100-200 mesh'));
    const [four, eight] = [CROSS_LINKINGS['4 % cross-linked'], CROSS_LINKINGS['8 % cross-linked']];
    expect(eight['resin.capacity_eq_per_L'].value).toBeGreaterThan(four['resin.capacity_eq_per_L'].value);
    expect(eight['resin.shrinkage'].value).toBeLessThan(four['resin.shrinkage'].value);
  });

  it('says only things that a scenario has, each within its limits', () => {
    for (const grade of GRADE_NAMES) {
      for (const [path, { value }] of Object.entries(GRADES[grade])) {
        const field = FIELDS[path as FieldPath];
        expect(field, path).toBeDefined();
        expect(value, path).toBeGreaterThanOrEqual(field.min);
        expect(value, path).toBeLessThanOrEqual(field.max);
      }
    }
  });

  it('sets all its numbers in a scenario that names it, save those the scenario sets itself', () => {
    const grade = '20-50 mesh, 4 % cross-linked';
    const values = valuesOf({ resin: { grade, tint_per_cm: 3 } });
    for (const [path, { value }] of Object.entries(GRADES[grade])) expect(values[path as FieldPath], path).toBe(path === 'resin.tint_per_cm' ? 3 : value);
  });

  it('is the default one where a scenario names none', () => {
    expect(valuesOf({})).toEqual(parameterDefaults());
    expect(valuesOf({ resin: { grade: DEFAULT_GRADE } })).toEqual(parameterDefaults());
  });

  it('is refused by name if there is none such', () => {
    const read = readScenario({ ...SCENARIO, resin: { grade: '50-100 mesh, 8% cross-linked' } }, 'x');
    expect(read).toMatchObject({ ok: false, issues: [{ path: 'resin.grade', expected: expect.stringContaining('50-100 mesh, 8 % cross-linked') }] });
  });
});

// Surface-mean diameter: sum of d³ over sum of d², with as much volume between any two sizes of equal ratio.
test('the surface mean between two sieves is what its definition gives', () => {
  const [least, most] = [180, 425];
  const steps = 20_000;
  let surface = 0;
  for (let i = 0; i < steps; i++) surface += 1 / (least * (most / least) ** ((i + 0.5) / steps)) / steps;
  closeTo('surface mean', sauterMean(least, most), 1 / surface, { relative: 1e-6 }, 'µm');
});

test('cells follow from the plate height of the packing: twice the bed, twice the cells, and a better packing more of them', () => {
  const height = packingHeight(137, 6.8);
  closeTo('plate height', height, 1.64 * 0.00685 * 6.8, { relative: 1e-12 }, 'cm');
  expect(cellsFor(10, 137, 6.8)).toBe(Math.round(10 / height));
  expect(cellsFor(20, 137, 6.8) / cellsFor(10, 137, 6.8)).toBeCloseTo(2, 1);
  expect(cellsFor(10, 137, 3)).toBeGreaterThan(cellsFor(10, 137, 6.8));
  expect(valuesOf({ bed: { length_cm: 14 } })['bed.plates']).toBe(cellsFor(14, parameterDefaults()['bed.bead_um'], parameterDefaults()['bed.packing']));
  expect(valuesOf({ bed: { length_cm: 14, plates: 33 } })['bed.plates']).toBe(33);
});
