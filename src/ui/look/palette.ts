import { PLOT_STYLE, type PlotId, type Theme } from '../../../sim/colour/index.ts';

// Colours of the page in both themes. Contrast of every pair in use is checked in tests/src/ui/palette.test.ts.

/** Colour tokens; each becomes the CSS custom property `--name`. */
export type Token = keyof typeof LIGHT | `line-${PlotId}` | `text-${PlotId}`;

export type Palette = Readonly<Record<Token, string>>;

/** `text-*`: labels beside plot lines, at least 4.5:1 on paper; the lines themselves, `line-*`, need only 3:1. */
const LIGHT = {
  paper: '#fbfbf8',
  sheet: '#ffffff',
  wash: '#f0f0eb',
  ink: '#18202c',
  soft: '#525b68',
  rule: '#dcdcd5',
  edge: '#838a94',
  accent: '#0b5a61',
  'on-accent': '#ffffff',
  focus: '#0b57d0',
  'caution-paper': '#fff5e0',
  'caution-ink': '#4a3205',
  'caution-edge': '#a8700a',
  'problem-paper': '#fdeeec',
  'problem-ink': '#95190f',
  'good-paper': '#e9f4ee',
  'good-ink': '#14603a',
} as const;

const DARK: Readonly<Record<keyof typeof LIGHT, string>> = {
  paper: '#0f151d',
  sheet: '#18202b',
  wash: '#1c2530',
  ink: '#e9ecef',
  soft: '#a9b3bf',
  rule: '#2b3542',
  edge: '#76818f',
  accent: '#6cc5cc',
  'on-accent': '#06181a',
  focus: '#9cc2ff',
  'caution-paper': '#2d2410',
  'caution-ink': '#f6e2b8',
  'caution-edge': '#c08a24',
  'problem-paper': '#361513',
  'problem-ink': '#ffb4a9',
  'good-paper': '#10291d',
  'good-ink': '#8fd8ad',
};

export const PALETTE: Readonly<Record<Theme, Palette>> = {
  light: { ...LIGHT, ...plotColours('light') },
  dark: { ...DARK, ...plotColours('dark') },
};

function plotColours(theme: Theme): Record<`line-${PlotId}` | `text-${PlotId}`, string> {
  const entries = Object.entries(PLOT_STYLE).flatMap(([id, { colour, label }]) => [
    [`line-${id}`, colour[theme]],
    [`text-${id}`, label[theme]],
  ]);
  // Object.fromEntries forgets the keys, which are those of PLOT_STYLE.
  return Object.fromEntries(entries) as Record<`line-${PlotId}` | `text-${PlotId}`, string>;
}
