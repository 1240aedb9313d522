import { absorbanceOf, type Solution } from '../colour/index.ts';
import { IN_FLASK, ION_IDS } from '../terms/ions.ts';
import type { Balance, Chemistry } from './balance.ts';
import { balanceIn, type Flask } from './flask.ts';
import { blueAbsorbance } from './indicator.ts';

// How a flask looks: the dissolved species for the colour of its liquid, and the same in words.

export interface Appearance {
  /** Goes to `liquidColour`. Solids are not in it. */
  readonly solution: Solution;
  /** Absorbance of the blue complex over the path. */
  readonly absorbance: number;
  readonly liquid: 'blue' | 'violet' | 'pink' | 'pale pink' | 'green' | 'red' | 'colourless';
  /** What stands in the liquid, in words; empty if it is clear. */
  readonly solid: string;
}

/** From here the blue hides the pink; assumed. */
const VIVID_A = 0.3;
/** Maxima of cobalt as tetrachloro anion and with water round it, nm; sources in colour/spectra.ts. */
const BLUE_NM = 690;
const PINK_NM = 511;
/** Absorbance of the tetrachloro anion below which it is not noticed, and times that of the pink from which it alone is seen: as the spectra come out through a beaker. */
const NOTICED_A = 0.2;
const ALONE = 2.3;
/** mol/L below which the colour of an ion is not noticed in a flask; assumed, from absorptivities of 2 to 5 L/mol/cm. */
const FAINT_M = 5e-4;
/** mol/L from which cobalt is called pink, not pale pink: where the colour of its spectrum through a beaker is. */
const PINK_M = 1.2e-2;
/** mol/L of iron(III) that thiocyanate turns red for the eye; the complex absorbs thousands per mol/L/cm, recalled. */
const RED_M = 2e-6;
/** mmol of hydroxide seen as a cloud; assumed. */
const CLOUD_MMOL = 2e-4;

export function appearanceOf(flask: Flask, chemistry: Chemistry, pathCm: number, threshold_A: number): Appearance {
  const balance = balanceIn(flask, chemistry);
  const absorbance = blueAbsorbance(balance.blue, pathCm);
  const solution = solutionOf(flask, balance);
  const liquid = inStrongAcid(solution, pathCm) ?? liquidWord(flask, balance, absorbance, threshold_A);
  return { solution, absorbance, liquid, solid: solidWords(flask) };
}

/** Strong acid makes cobalt blue without any indicator, as it is in a beaker before the water has come through. */
function inStrongAcid(solution: Solution, path_cm: number): 'blue' | 'violet' | undefined {
  const blue = absorbanceOf('CoCl4', solution, path_cm, BLUE_NM);
  const pink = absorbanceOf('CoAquo', solution, path_cm, PINK_NM) + absorbanceOf('CoCl', solution, path_cm, PINK_NM);
  if (blue < NOTICED_A || blue < pink) return undefined;
  return blue > ALONE * pink ? 'blue' : 'violet';
}

function solutionOf(flask: Flask, { metals, blue, hydrogen }: Balance): Solution {
  const ions = Object.fromEntries(ION_IDS.filter((ion) => metals[ion].dissolved > 0).map((ion) => [ion, metals[ion].dissolved]));
  if (metals.Co.dissolved > 0) ions.Co = metals.Co.dissolved - blue;
  return { HCl_M: flask.amounts.SCN > 0 ? 0 : hydrogen, ions, extra: { CoNCS: blue, CoY: metals.Co.edta, NiY: metals.Ni.edta } };
}

function liquidWord(flask: Flask, { metals }: Balance, absorbance: number, threshold_A: number): Appearance['liquid'] {
  if (flask.amounts.SCN > 0 && metals.Fe3.dissolved > RED_M) return 'red';
  if (absorbance >= VIVID_A) return 'blue';
  if (absorbance >= threshold_A) return 'violet';
  const cobalt = metals.Co.dissolved + metals.Co.edta;
  if (metals.Ni.dissolved > FAINT_M && metals.Ni.dissolved > 3 * cobalt) return 'green';
  if (cobalt >= PINK_M) return 'pink';
  return cobalt >= FAINT_M ? 'pale pink' : 'colourless';
}

function solidWords(flask: Flask): string {
  return ION_IDS.filter((ion) => (flask.solid[ion] ?? 0) > CLOUD_MMOL)
    .map((ion) => IN_FLASK[ion].hydroxide)
    .join('; ');
}
