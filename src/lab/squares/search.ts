import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import type { Problem } from './problem.ts';
import { type Evaluate, slopesAt, slopesWith, widthsOf } from './slopes.ts';

// The search for the least sum of squares, prior included, by the Levenberg-Marquardt method of a library.

/** A step that lowers the sum of squares by less than this share has arrived. */
const GAIN_LEAST = 1e-4;
/** A search begun again that lowers the sum by less than this was not needed. An end of an interval lies 3.84 higher. */
export const AGAIN_LEAST = 0.05;
/** Damping of the first step, what it is divided by after a step that gained, and multiplied with after one that did not. */
const DAMPING = { first: 1e-2, down: 9, up: 11 } as const;
/** With this much damping a step changes nothing that could be noticed; what is left is the roughness of the model. */
const DAMPING_MOST = 1e9;

/** Where a search stands. */
interface Place {
  readonly u: readonly number[];
  readonly sum: number;
  /** Steps that gained. */
  readonly gained: number;
}

/**
 * The u of least sum that is found within `rounds` steps. A single search can stop short: its slopes are those of short steps, and a
 * reading that has no value one step away has none. So it begins again where it ended, with little damping and with slopes over the
 * widths of the intervals, until that gains nothing.
 */
export function searched(evaluate: Evaluate, problem: Problem, rounds: number, start: readonly number[]): readonly number[] {
  const { step, prior } = problem;
  let steps = start.map(() => step);
  let place = descended({ u: start, sum: Number.POSITIVE_INFINITY, gained: 0 }, steps, evaluate, problem, rounds);
  while (prior && place.gained < rounds) {
    steps = widthsOf(
      slopesWith(
        evaluate,
        place.u,
        start.map(() => step),
        problem,
      ),
      step,
    );
    const again = descended(place, steps, evaluate, problem, rounds);
    if (!(place.sum - again.sum > AGAIN_LEAST)) return again.u;
    place = again;
  }
  return place.u;
}

/** Steps downhill from a place until they gain no more. */
function descended(from: Place, steps: readonly number[], evaluate: Evaluate, problem: Problem, rounds: number): Place {
  const { measured, deviation, bounds, prior } = problem;
  // Everything is divided by its deviation here: the library (5.1) weighs the sum of squares and its slopes in different ways.
  const ofPrior = prior ? from.u.map(() => 0) : [];
  const y = [...measured.map((value, i) => value / deviation[i]), ...ofPrior];
  const at = (u: number[]) => {
    const all = [...evaluate(u).map((value, i) => value / deviation[i]), ...u];
    return (i: number): number => all[i];
  };
  const slopes = (u: number[]) => {
    const rows = slopesAt(evaluate, u, steps, problem).map((row, i) => row.map((slope) => slope / deviation[i]));
    return (i: number): number[] => rows[i] ?? u.map((_, k) => Number(k === i - rows.length));
  };
  let { u, sum, gained } = from;
  // One step of the library at a time: it continues from a step that failed, and would begin with little damping each time.
  for (let damping: number = DAMPING.first; gained < rounds && damping < DAMPING_MOST; ) {
    const found = levenbergMarquardt({ x: y.map((_, i) => i), y }, at, {
      initialValues: [...u],
      damping,
      jacobianFunction: slopes,
      maxIterations: 1,
      errorTolerance: 1e-12,
      ...(bounds && { minValues: bounds.least, maxValues: bounds.most }),
    });
    // The library returns the better of start and step.
    const moved = found.parameterValues.some((value, k) => value !== u[k]);
    const gain = sum - found.parameterError;
    sum = found.parameterError;
    damping = moved ? damping / DAMPING.down : damping * DAMPING.up;
    if (!moved) continue;
    u = found.parameterValues;
    gained += 1;
    if (!(gain > GAIN_LEAST * sum)) break;
  }
  return { u, sum, gained };
}
