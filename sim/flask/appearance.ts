import { type ColourWord, colourWord, liquidColour, type Solution } from '../colour/index.ts';
import { IN_FLASK, ION_IDS } from '../terms/ions.ts';
import type { Balance, Chemistry } from './balance.ts';
import { balanceIn, type Flask } from './flask.ts';
import { blueAbsorbance } from './indicator.ts';

// How a flask looks: the dissolved species for the colour of its liquid, and the same in words, which are made from that colour.

/** What an eye sees that looks for the last blue: less of it than gives a drawing a colour. */
const TRACE = 'with a trace of blue';

export interface Appearance {
  /** Goes to `liquidColour`. Solids are not in it. */
  readonly solution: Solution;
  /** Absorbance of the blue complex over the path. */
  readonly absorbance: number;
  readonly liquid: ColourWord | `${ColourWord} ${typeof TRACE}`;
  /** What stands in the liquid, in words; empty if it is clear. */
  readonly solid: string;
}

/** mmol of hydroxide seen as a cloud; assumed. */
const CLOUD_MMOL = 2e-4;

export function appearanceOf(flask: Flask, chemistry: Chemistry, pathCm: number, threshold_A: number): Appearance {
  const balance = balanceIn(flask, chemistry);
  const absorbance = blueAbsorbance(balance.blue, pathCm);
  const solution = solutionOf(flask, balance);
  const drawn = colourWord(liquidColour(solution, pathCm));
  // Beside the red of iron no trace of blue is seen.
  const hidden = absorbance >= threshold_A && !/blue|violet|red|orange/.test(drawn);
  return { solution, absorbance, liquid: hidden ? `${drawn} ${TRACE}` : drawn, solid: solidWords(flask) };
}

function solutionOf(flask: Flask, { metals, blue, hydrogen }: Balance): Solution {
  const ions = Object.fromEntries(ION_IDS.filter((ion) => metals[ion].dissolved > 0).map((ion) => [ion, metals[ion].dissolved]));
  if (metals.Co.dissolved > 0) ions.Co = metals.Co.dissolved - blue;
  const indicated = flask.amounts.SCN > 0;
  const FeNCS = indicated ? metals.Fe3.dissolved : 0;
  if (FeNCS > 0) ions.Fe3 = 0;
  return { HCl_M: indicated ? 0 : hydrogen, ions, extra: { CoNCS: blue, CoY: metals.Co.edta, NiY: metals.Ni.edta, FeNCS } };
}

function solidWords(flask: Flask): string {
  return ION_IDS.filter((ion) => (flask.solid[ion] ?? 0) > CLOUD_MMOL)
    .map((ion) => IN_FLASK[ion].hydroxide)
    .join('; ');
}
