import { type Appearance, appearanceOf, type Flask } from '../../sim/flask/index.ts';
import type { Bench } from '../../sim/workup/index.ts';

/** How a flask looks on this bench, before anything was read off it. */
export function solutionIn(flask: Flask, { titration: { chemistry, path_cm, threshold_A } }: Bench): Appearance {
  return appearanceOf(flask, chemistry, path_cm, threshold_A);
}
