import { oklabOf, type Rgb } from '../../../sim/colour/index.ts';

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
  [360, 'red'],
] as const;

/** The word for a colour, its channels from 0 to 1. */
export function colourWord(colour: Rgb): ColourWord {
  const [lightness, a, b] = oklabOf(colour);
  const chroma = Math.hypot(a, b);
  if (chroma < COLOURLESS) return 'colourless';
  const degrees = ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
  const hue = HUES.find(([end]) => degrees < end)?.[1] ?? 'red';
  return `${chroma < PALE ? 'pale ' : ''}${hue === 'red' && lightness >= PINK_FROM ? 'pink' : hue}`;
}
