import { convertRgbToXyz65, lrgb } from 'culori';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { colourOfSpectrum, encodeChannel, fitInto, hexOf, linearOf, rgbOf } from '../../../sim/colour/srgb.ts';
import { POINTS } from '../../../sim/colour/spectra.ts';

const LUMINANCE = [0.2126, 0.7152, 0.0722]; // IEC 61966-2-1, recalled

describe('XYZ to linear sRGB', () => {
  test('of (0.3, 0.4, 0.5) equals culori and colorjs', () => {
    const expected = [0.108032, 0.480391, 0.463584]; // both libraries, run
    linearOf([0.3, 0.4, 0.5]).forEach((value, k) => {
      expect(Math.abs(value - expected[k])).toBeLessThan(1e-6);
    });
  });

  test('followed by the transfer curve undoes the way culori takes to XYZ', () => {
    const channel = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(channel, channel, channel, (r, g, b) => {
        const { x, y, z } = convertRgbToXyz65({ r, g, b });
        const back = linearOf([x, y, z]).map(encodeChannel);
        [r, g, b].forEach((value, k) => {
          expect(back[k]).toBeCloseTo(value, 4);
        });
      }),
      { seed: 4, numRuns: 300 },
    );
  });
});

describe('the transfer curve', () => {
  test('has the values of the standard', () => {
    expect(encodeChannel(0.0031308)).toBeCloseTo(0.04045, 4); // IEC 61966-2-1, recalled
    expect(encodeChannel(0.5)).toBeCloseTo(0.735357, 5); // formula
    const { r } = lrgb({ mode: 'rgb', r: encodeChannel(0.2), g: 0, b: 0 }) ?? { r: Number.NaN };
    expect(r).toBeCloseTo(0.2, 6); // culori
  });
});

describe('a spectrum', () => {
  test('that is 1 everywhere is exactly white', () => {
    expect(hexOf(colourOfSpectrum(new Float64Array(POINTS).fill(1)))).toBe('#ffffff');
  });

  test('that is 0 everywhere is black', () => {
    expect(hexOf(colourOfSpectrum(new Float64Array(POINTS)))).toBe('#000000');
  });

  test('that is grey keeps equal channels', () => {
    const [r, g, b] = colourOfSpectrum(new Float64Array(POINTS).fill(0.3));
    expect(Math.max(r, g, b) - Math.min(r, g, b)).toBeLessThan(1e-6);
  });
});

describe('gamut fitting', () => {
  test('keeps luminance while no channel is above 1, and the hue side', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.2, max: 0, noNaN: true }),
        fc.double({ min: 0.05, max: 0.4, noNaN: true }),
        fc.double({ min: 0.05, max: 0.6, noNaN: true }),
        (r, g, b) => {
          const channels = Float64Array.of(r, g, b);
          const before = r * LUMINANCE[0] + g * LUMINANCE[1] + b * LUMINANCE[2];
          fc.pre(before > 0.01);
          fitInto(channels);
          const after = channels.reduce((sum, value, k) => sum + value * LUMINANCE[k], 0);
          expect(after).toBeCloseTo(before, 3);
          expect(channels[0]).toBeLessThanOrEqual(Math.min(channels[1], channels[2]));
          expect((channels[1] - channels[2]) * (g - b)).toBeGreaterThanOrEqual(0);
        },
      ),
      { seed: 5, numRuns: 300 },
    );
  });

  test('leaves a colour inside the gamut alone', () => {
    const channels = Float64Array.of(0.2, 0.5, 1);
    fitInto(channels);
    expect([...channels]).toEqual([0.2, 0.5, 1]);
  });
});

test('hex and channels convert both ways', () => {
  expect(hexOf(rgbOf('#0a80ff'))).toBe('#0a80ff');
  expect(hexOf([1, 0.5, 0])).toBe('#ff8000');
});
