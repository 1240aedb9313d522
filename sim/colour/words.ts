import { cos, sin } from '../math/elementary.ts';
import { square } from '../math/square.ts';
import { oklabOf } from './oklab.ts';
import type { Rgb } from './srgb.ts';

// Names of colours for liquids. The name is made from the colour that is drawn, so the two cannot disagree.

export type ColourWord = 'colourless' | `${'' | 'pale '}${'pink' | 'red' | 'orange' | 'yellow' | 'green' | 'blue-green' | 'blue' | 'violet'}`;

/** OKLCH chroma below which a liquid in a beaker is called colourless, and pale. Choices: the first is a few just noticeable steps off white. */
const COLOURLESS = 0.01;
const PALE = 0.045;
/** OKLCH lightness of pink, above that of red; a choice. */
const PINK_FROM = 0.68;
/** Upper ends of the hues in OKLCH, degrees; chosen so that the CSS colours of these names get these names. */
const HUES = [
  [40, 'red'],
  [75, 'orange'],
  [112, 'yellow'],
  [175, 'green'],
  [215, 'blue-green'],
  [285, 'blue'],
  [328, 'violet'],
] as const;
const TURNS = HUES.map(([degrees, name]) => [turnOf(cos((degrees * Math.PI) / 180), sin((degrees * Math.PI) / 180)), name] as const);

/** The word for a colour, its channels from 0 to 1. */
export function colourWord(colour: Rgb): ColourWord {
  const [lightness, a, b] = oklabOf(colour);
  const chroma = Math.sqrt(square(a) + square(b));
  if (chroma < COLOURLESS) return 'colourless';
  const turn = turnOf(a, b);
  const hue = TURNS.find(([end]) => turn < end)?.[1] ?? 'red';
  return `${chroma < PALE ? 'pale ' : ''}${hue === 'red' && lightness >= PINK_FROM ? 'pink' : hue}`;
}

/** Grows with the angle of a direction, from 0 to 4 once round: angles are only compared, and need no arc tangent. */
function turnOf(x: number, y: number): number {
  const share = x / (Math.abs(x) + Math.abs(y));
  return y >= 0 ? 1 - share : 3 + share;
}
