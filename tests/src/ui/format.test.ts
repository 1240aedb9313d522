import { describe, expect, test } from 'vitest';
import { duration, fixed, millilitres, millimoles, molarity, percent, quantity, significant, spoken } from '../../../src/ui/text/format.ts';

const THIN = '\u202f';
const MINUS = '\u2212';

// Expected texts follow the SI Brochure, 9th ed., 5.4 (space before the unit, groups of three by a thin space) and
// ordinary rounding to significant figures.
test.each([
  [46.2345, 3, '46.2'],
  [0.0004567, 2, '0.00046'],
  [0.00004567, 3, '4.57×10⁻⁵'],
  [9.996, 3, '10.0'],
  [99.96, 3, '100'],
  [1234, 3, '1230'],
  [12345, 3, `12${THIN}300`],
  [6.02214076e23, 4, '6.022×10²³'],
  [-1.5, 2, `${MINUS}1.5`],
  [-1.5e-7, 2, `${MINUS}1.5×10⁻⁷`],
  [0, 3, '0'],
  [-0, 3, '0'],
  [Number.NaN, 3, '\u2013'],
  [Number.POSITIVE_INFINITY, 3, '\u2013'],
])('significant(%d, %d) is %s', (value, figures, text) => {
  expect(significant(value, figures)).toBe(text);
});

test('fixed(...) writes no minus before a zero', () => {
  expect(fixed(-0.0004, 3)).toBe('0.000');
  expect(fixed(-0.0006, 3)).toBe(`${MINUS}0.001`);
});

test('the units of the bench stand after a thin no-break space', () => {
  expect(millilitres(46.249)).toBe(`46.2${THIN}mL`);
  expect(millimoles(0.12)).toBe(`0.120${THIN}mmol`);
  expect(molarity(7.946)).toBe(`7.95${THIN}mol/L`);
  expect(percent(0.9953)).toBe(`99.5${THIN}%`);
  expect(quantity(7, 'cm', 2)).toBe(`7.0${THIN}cm`);
});

test('an unknown quantity carries no unit', () => {
  expect(millilitres(Number.NaN)).toBe('\u2013');
});

describe('duration', () => {
  test.each([
    [0.5, `30${THIN}s`],
    [0.9999, `1${THIN}min 0${THIN}s`],
    [2.25, `2${THIN}min 15${THIN}s`],
    [38.2, `38${THIN}min`],
    [59.7, `1${THIN}h 0${THIN}min`],
    [72, `1${THIN}h 12${THIN}min`],
  ])('of %d min is %s', (minutes, text) => {
    expect(duration(minutes)).toBe(text);
  });
});

test('spoken(...) says sign and unit in words', () => {
  expect(spoken(-1.25, 'mL')).toBe('minus 1.25 millilitres');
  expect(spoken(Number.NaN, 'mL')).toBe('unknown');
});
