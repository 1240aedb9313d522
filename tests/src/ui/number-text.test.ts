import { assert, double, integer, property } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SLIDER_STEPS, parseNumber, readNumber, sliderPosition, sliderValue, stepped } from '../../../src/ui/text/number-text.ts';

const VOLUME = { label: 'volume', unit: 'mL', min: 0.1, max: 50 };
const SEED = { seed: 20260824 };

describe('parseNumber', () => {
  test.each([
    ['3.5', 3.5],
    ['3,5', 3.5],
    [' 12 ', 12],
    ['\u22120.5', -0.5],
    ['1e-7', 1e-7],
    ['1,5e-7', 1.5e-7],
    ['.5', 0.5],
    ['5.', 5],
    ['+2', 2],
    ['10 000', 10000],
  ])('reads %j as %d', (text, value) => expect(parseNumber(text)).toBe(value));

  test.each(['', ' ', 'abc', '1.000,5', '1,000,5', '1,000.5', '0x10', '1e999', 'Infinity', 'NaN', '--1', '1e', '5 mL'])('refuses %j', (text) => {
    expect(parseNumber(text)).toBeUndefined();
  });

  test('reads back whatever String(...) writes', () => {
    assert(
      property(double({ noNaN: true, noDefaultInfinity: true }), (value) => parseNumber(String(value)) === value),
      SEED,
    );
  });
});

test('readNumber(...) out of range names the field, the range, the unit and what was given', () => {
  expect(readNumber('80', VOLUME)).toEqual({ ok: false, message: 'volume: expected 0.1 to 50 mL, received 80' });
  expect(readNumber('', VOLUME)).toEqual({ ok: false, message: 'volume: expected 0.1 to 50 mL, received nothing' });
});

test('readNumber(integer) refuses a fraction', () => {
  const lanes = { label: 'lanes', unit: '', min: 1, max: 25, integer: true };
  expect(readNumber('2,5', lanes)).toEqual({ ok: false, message: 'lanes: expected a whole number from 1 to 25, received 2,5' });
  expect(readNumber('13', lanes)).toEqual({ ok: true, value: 13 });
});

test('stepped(...) leaves no binary dust', () => {
  expect(stepped(0.1, 2, 0.1, VOLUME)).toBe(0.3);
});

test('stepped(...) stays in range', () => {
  assert(
    property(double({ min: 0.1, max: 50, noNaN: true }), integer({ min: -20, max: 20 }), (value, steps) => {
      const moved = stepped(value, steps, 5, VOLUME);
      return moved >= 0.1 && moved <= 50;
    }),
    SEED,
  );
});

test('a linear slider goes from min to max in multiples of its step', () => {
  expect(sliderPosition(0.1, VOLUME, false)).toBe(0);
  expect(sliderPosition(50, VOLUME, false)).toBe(SLIDER_STEPS);
  expect(sliderValue(0, 0.5, VOLUME, false)).toBe(0.1);
  expect(sliderValue(500, 0.5, VOLUME, false)).toBe(25);
  expect(sliderValue(SLIDER_STEPS, 0.5, VOLUME, false)).toBe(50);
});

test('a log slider has the geometric mean in its middle', () => {
  const diffusion = { label: 'D', unit: 'cm²/s', min: 1e-9, max: 1e-3 };
  expect(sliderPosition(1e-6, diffusion, true)).toBeCloseTo(SLIDER_STEPS / 2, 9);
  expect(sliderValue(SLIDER_STEPS / 2, 1, diffusion, true)).toBe(1e-6);
});
