import { expect, test } from 'vitest';
import { FIELDS, type FieldPath } from '../../../sim/terms/fields.ts';
import { sectionWords } from '../../../src/lab/sections/section-words.ts';
import { SECTIONS, sectionOf, stepOf } from '../../../src/lab/sections/contents.ts';

test('every parameter of the tables is set in exactly one section', () => {
  const set = SECTIONS.flatMap(({ main, more }) => [...main, ...more]);
  expect([...set].sort()).toEqual(Object.keys(FIELDS).sort());
});

test.each([
  ['bed.length_cm', 'column'],
  ['liquids.acid.HCl_M', 'bottles'],
  ['procedure[3].volume_mL', 'procedure'],
  ['faults[0].severity', 'faults'],
  ['resin.grade', 'resin'],
  ['something', 'model'],
])('%s is set under %s', (path, section) => {
  expect(sectionOf(path)).toBe(section);
});

test('a step never leaves the range and is a power of ten', () => {
  for (const path of Object.keys(FIELDS) as FieldPath[]) {
    const { min, max } = FIELDS[path];
    expect(stepOf(path), path).toBeGreaterThan(0);
    expect(stepOf(path), path).toBeLessThanOrEqual(max - min);
    expect(Math.log10(stepOf(path)) % 1, path).toBeCloseTo(0, 9);
  }
});

test('the heading of the resin says when its beads are none that the grade holds', () => {
  const words = (bead_um: number) => sectionWords({ resin: { grade: '50-100 mesh, 8 % cross-linked' }, bed: { bead_um } }, 'resin').replaceAll('\u202f', ' ');
  expect(words(250)).toBe('50-100 mesh, 8 % cross-linked');
  expect(words(150)).toBe('beads of 150 µm, not in 50-100 mesh, 8 % cross-linked');
});
