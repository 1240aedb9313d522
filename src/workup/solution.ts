import { type Appearance, appearanceOf } from '../../sim/flask/appearance.ts';
import type { Bench } from '../../sim/workup/bench.ts';
import type { Flask } from '../../sim/flask/flask.ts';

/** How a flask looks on this bench, before anything was read off it. */
export function solutionIn(flask: Flask, { titration: { chemistry, path_cm, threshold_A } }: Bench): Appearance {
  return appearanceOf(flask, chemistry, path_cm, threshold_A);
}
