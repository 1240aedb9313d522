import { wcagContrast } from 'culori';
import { describe, expect, test } from 'vitest';
import { PLOT_STYLE } from '../../../sim/colour/plot.ts';
import { PALETTE, type Token } from '../../../src/ui/look/palette.ts';

// Limits: WCAG 2.2, 1.4.3 (text 4.5:1) and 1.4.11 (controls and graphics 3:1). Ratios computed by culori 4.
const TEXT = 4.5;
const GRAPHIC = 3;

const TEXT_PAIRS: readonly (readonly [Token, readonly Token[]])[] = [
  ['ink', ['paper', 'sheet', 'wash']],
  ['soft', ['paper', 'sheet', 'wash']],
  ['accent', ['paper', 'sheet', 'wash']],
  ['paper', ['ink']],
  ['on-accent', ['accent']],
  ['caution-ink', ['caution-paper']],
  ['problem-ink', ['problem-paper', 'paper', 'sheet']],
  ['good-ink', ['good-paper', 'paper', 'sheet']],
];

const GRAPHIC_PAIRS: readonly (readonly [Token, readonly Token[]])[] = [
  ['edge', ['paper', 'sheet']],
  ['focus', ['paper', 'sheet', 'wash', 'caution-paper']],
  ['caution-edge', ['paper']],
];

const SERIES = Object.keys(PLOT_STYLE) as (keyof typeof PLOT_STYLE)[];

describe.each(['light', 'dark'] as const)('the %s palette', (theme) => {
  const colours = PALETTE[theme];

  test.each(TEXT_PAIRS)('keeps text in %s readable', (text, grounds) => {
    for (const ground of grounds) expect(wcagContrast(colours[text], colours[ground]), `${text} on ${ground}`).toBeGreaterThanOrEqual(TEXT);
  });

  test.each(GRAPHIC_PAIRS)('keeps %s visible', (edge, grounds) => {
    for (const ground of grounds) expect(wcagContrast(colours[edge], colours[ground]), `${edge} on ${ground}`).toBeGreaterThanOrEqual(GRAPHIC);
  });

  test.each(SERIES)('keeps the line and the label of %s visible on paper', (id) => {
    expect(wcagContrast(colours[`line-${id}`], colours.paper)).toBeGreaterThanOrEqual(GRAPHIC);
    expect(wcagContrast(colours[`text-${id}`], colours.paper)).toBeGreaterThanOrEqual(TEXT);
  });
});
