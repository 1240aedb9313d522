import { differenceCiede2000, filterDeficiencyDeuter, filterDeficiencyProt, filterDeficiencyTrit, oklab, rgb, wcagContrast } from 'culori';
import { describe, expect, test } from 'vitest';
import { PLOT_PAGE, PLOT_STYLE, type PlotId, streakRamp, type Theme } from '../../../sim/colour/plot.ts';
import { hexOf, type Rgb, rgbOf } from '../../../sim/colour/srgb.ts';
import { difference } from './reference.ts';

const IDS = Object.keys(PLOT_STYLE) as PlotId[];
const THEMES: readonly Theme[] = ['light', 'dark'];
const ciede2000 = differenceCiede2000();

const asCulori = (colour: Rgb) => ({ mode: 'rgb' as const, r: colour[0], g: colour[1], b: colour[2] });
const hexColour = (hex: string) => rgb(hex) ?? asCulori([0, 0, 0]);

test('the contrast formula has its known values', () => {
  expect(wcagContrast('#0072B2', '#ffffff')).toBeCloseTo(5.19, 2); // culori, WCAG 2.2
  expect(wcagContrast('#E69F00', '#ffffff')).toBeCloseTo(2.25, 2); // fails 3:1
});

describe.each(THEMES)('on the %s page', (theme) => {
  // WCAG 2.2, 1.4.11 non-text contrast 3:1, read. Both pages the lines stand on.
  const pages = { light: ['#ffffff', '#f8fafc'], dark: ['#0f172a', '#111827'] }[theme];

  test.each(IDS)('%s has at least 3:1 against the page', (id) => {
    const contrast = wcagContrast(PLOT_STYLE[id].colour[theme], pages[0]);
    expect(contrast).toBeGreaterThanOrEqual(3.05);
    expect(wcagContrast(PLOT_STYLE[id].colour[theme], pages[1])).toBeGreaterThanOrEqual(2.85);
  });

  test('all lines stay apart, also with colour-vision deficiency', () => {
    const views = [
      (c: string) => hexColour(c),
      ...[filterDeficiencyProt(1), filterDeficiencyDeuter(1), filterDeficiencyTrit(1)].map((filter) => (c: string) => filter(hexColour(c))),
    ];
    for (const view of views) {
      for (const one of IDS)
        for (const two of IDS) {
          if (one < two) expect(ciede2000(view(PLOT_STYLE[one].colour[theme]), view(PLOT_STYLE[two].colour[theme]))).toBeGreaterThan(13);
        }
    }
  });

  test.each(IDS)('the ramp of %s runs from page to plot colour with lightness one way', (id) => {
    expect(difference(hexOf(streakRamp(id, theme, 0)), PLOT_PAGE[theme])).toBeLessThan(0.1);
    expect(difference(hexOf(streakRamp(id, theme, 1)), PLOT_STYLE[id].colour[theme])).toBeLessThan(0.1);
    const steps = Array.from({ length: 41 }, (_, i) => oklab(asCulori(streakRamp(id, theme, i / 40))).l);
    const sign = theme === 'light' ? -1 : 1;
    for (let i = 1; i < steps.length; i++) expect(sign * (steps[i] - steps[i - 1])).toBeGreaterThan(0.001);
  });

  test.each(IDS)('the ramp of %s is straight in OKLab', (id) => {
    const from = oklab(hexColour(PLOT_PAGE[theme]));
    const to = oklab(hexColour(PLOT_STYLE[id].colour[theme]));
    const half = oklab(asCulori(streakRamp(id, theme, 0.5)));
    // Pale cobalt blue leaves sRGB by a little, hence not tighter.
    expect(Math.abs(half.l - (from.l + to.l) / 2)).toBeLessThan(0.003);
    expect(Math.abs(half.a - (from.a + to.a) / 2)).toBeLessThan(0.008);
    expect(Math.abs(half.b - (from.b + to.b) / 2)).toBeLessThan(0.008);
  });
});

test('lines are told apart without colour: no two dashes and no two markers are alike', () => {
  expect(new Set(IDS.map((id) => PLOT_STYLE[id].dash)).size).toBe(IDS.length);
  expect(new Set(IDS.map((id) => PLOT_STYLE[id].marker)).size).toBe(IDS.length);
});

test('a ramp may start from another page colour and holds its ends', () => {
  expect(hexOf(streakRamp('Co', 'light', -1, '#f8fafc'))).toBe('#f8fafc');
  expect(difference(streakRamp('Co', 'light', 7, '#f8fafc'), rgbOf(PLOT_STYLE.Co.colour.light))).toBeLessThan(0.1);
});
