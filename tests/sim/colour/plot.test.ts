import {
  differenceCiede2000,
  filterDeficiencyDeuter,
  filterDeficiencyProt,
  filterDeficiencyTrit,
  oklab,
  oklch,
  type Rgb as CuloriRgb,
  rgb,
  wcagContrast,
} from 'culori';
import { describe, expect, test } from 'vitest';
import { PLOT_STYLE, type PlotId, type Theme } from '../../../sim/colour/plot.ts';
import { PLOT_PAGE, streakRamp } from '../../../sim/colour/ramp.ts';
import { bedColour } from '../../../sim/colour/bed.ts';
import { liquidColour } from '../../../sim/colour/liquid.ts';
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

// Hues of the lines against hues of what they name, as the model computes the colours. No outside figure: the rule is ours, hues by culori (OKLCH).
describe.each(THEMES)('what is seen in the glass and the lines of the %s page do not contradict each other', (theme) => {
  const hueOf = (colour: CuloriRgb): number => oklch(colour).h ?? Number.NaN;
  const apart = (one: number, two: number): number => Math.abs(((one - two + 540) % 360) - 180);
  const line = (id: PlotId): number => hueOf(hexColour(PLOT_STYLE[id].colour[theme]));
  const PATH_CM = 3;

  test.each([0.01, 0.03, 0.1, 0.2])('a cobalt band of %f mmol/mL in 9 M acid is nearer to the line of cobalt than to that of nickel', (Co) => {
    const band = hueOf(asCulori(bedColour({ HCl_M: 9, pore: {}, resin: { Co } }, 6, { porosity: 0.38, beadUm: 250, exaggerate: 1 })));
    expect(apart(band, line('Co'))).toBeLessThan(0.75 * apart(band, line('Ni')));
  });

  test.each([0.02, 0.1, 0.22])('nickel of %f mol/L in 9 M acid is nearer to the line of nickel than to that of cobalt', (Ni) => {
    const liquid = hueOf(asCulori(liquidColour({ HCl_M: 9, ions: { Ni } }, PATH_CM, { exaggerate: 1 })));
    expect(apart(liquid, line('Ni'))).toBeLessThan(0.6 * apart(liquid, line('Co')));
  });

  test('cobalt in water, which is pink, is no other ion of the lesson by its hue', () => {
    const liquid = hueOf(asCulori(liquidColour({ HCl_M: 0, ions: { Co: 0.05 } }, PATH_CM, { exaggerate: 1 })));
    expect(apart(liquid, line('Ni'))).toBeGreaterThan(60);
  });
});

test.each(THEMES)('cobalt and nickel are dE00 30 or more apart on the %s page, for every common kind of colour vision', (theme) => {
  // Deficiencies at full strength by the matrices in culori (Machado, Oliveira and Fernandes 2009).
  for (const filter of [(c: CuloriRgb) => c, filterDeficiencyProt(1), filterDeficiencyDeuter(1), filterDeficiencyTrit(1)]) {
    const [one, two] = (['Co', 'Ni'] as const).map((id) => filter(hexColour(PLOT_STYLE[id].colour[theme])));
    expect(ciede2000(one, two)).toBeGreaterThan(30);
  }
});
