import { Matrix, inverse } from 'ml-matrix';
import type { Problem } from './problem.ts';
import { type Evaluate, NO_ANSWER, type Slopes } from './slopes.ts';

// Intervals by profile: how far a parameter can go, all others following it, until the sum of squares (prior included) has risen by
// 3.84, the 95 % point of chi-square with one degree of freedom. Where the sum is a parabola these are the ends that the slopes give.
// A step goes to the point farthest along the parameter on the surface where a local parabola has risen so far (Venzon and
// Moolgavkar, Appl. Stat. 37 (1988) 87, from memory). The slopes of that parabola follow the runs made on the way (Broyden's update,
// Math. Comp. 19 (1965) 577, from memory), so that a step costs one run of the model.

/** Rise of the sum at the ends of a 95 % interval. */
const RISE = 3.841;
/** An end is found when the rise is within this of it: 0.2 moves the end by a twentieth of a standard deviation. */
const RISE_WITHIN = 0.2;
/** Most runs of the model for one end. */
export const END_RUNS = 5;

export interface Profile {
  /** Ends of the interval of every u. */
  readonly ends: readonly (readonly [low: number, high: number])[];
  readonly fit: Point;
  /** Where the least sum of all was met: the fit, unless its search stopped short. */
  readonly least: Point;
}

export interface Point {
  readonly u: readonly number[];
  /** Residuals over deviations, those of the prior behind. */
  readonly residuals: readonly number[];
  readonly sum: number;
}

export function profiled(evaluate: Evaluate, u: readonly number[], { slopes, covariance }: Slopes, problem: Problem): Profile {
  const { measured, deviation, prior, bounds } = problem;
  const at = (place: readonly number[]): Point => {
    const residuals = [...evaluate(place).map((value, i) => (value - measured[i]) / deviation[i]), ...(prior ? place : [])];
    return { u: place, residuals, sum: residuals.reduce((sum, one) => sum + one * one, 0) };
  };
  const within = (place: readonly number[]): number[] =>
    place.map((value, i) => Math.min(bounds?.most[i] ?? Infinity, Math.max(bounds?.least[i] ?? -Infinity, value)));
  const jacobian = [...slopes.map((row, i) => row.map((slope) => slope / deviation[i])), ...(prior ? Matrix.eye(u.length).to2DArray() : [])];
  const fit = at(u);
  let least = fit;
  const endOf = (k: number, way: 1 | -1): number => {
    const local = new Matrix(jacobian);
    const straight = within(u.map((value, i) => value + (way * Math.sqrt(RISE) * covariance[i][k]) / Math.sqrt(covariance[k][k])));
    let [last, place] = [fit, straight];
    for (let run = 0; run < END_RUNS && place[k] !== last.u[k]; run++) {
      const point = at(place);
      if (point.residuals.some((one) => Math.abs(one) > 0.5 * NO_ANSWER)) {
        place = place.map((value, i) => 0.5 * (value + last.u[i]));
        continue;
      }
      if (point.sum < least.sum) least = point;
      learnInto(local, last, point);
      last = point;
      if (Math.abs(point.sum - fit.sum - RISE) < RISE_WITHIN && way * (place[k] - u[k]) > 0) return place[k];
      place = within(farthest(local, point, fit.sum + RISE, k, way) ?? place.map((value, i) => 0.5 * (value + u[i])));
    }
    // Not found: where the model has no value close by, or jumps, the last place tried may lie next to the fit or on its other side.
    return way * Math.max(way * place[k], way * straight[k]);
  };
  return { ends: u.map((_, k) => [endOf(k, -1), endOf(k, 1)]), fit, least };
}

/** Broyden's update: the slopes nearest to the old ones that agree with the last two points. */
function learnInto(jacobian: Matrix, from: Point, to: Point): void {
  const step = to.u.map((value, k) => value - from.u[k]);
  const length2 = step.reduce((sum, one) => sum + one * one, 0);
  if (!(length2 > 0)) return;
  for (let i = 0; i < jacobian.rows; i++) {
    const missed = to.residuals[i] - from.residuals[i] - step.reduce((sum, one, k) => sum + jacobian.get(i, k) * one, 0);
    step.forEach((one, k) => jacobian.set(i, k, jacobian.get(i, k) + (missed * one) / length2));
  }
}

/** The place farthest along u_k where the parabola around a point has this sum; undefined if it has it nowhere. */
function farthest(jacobian: Matrix, { u, residuals, sum }: Point, wanted: number, k: number, way: 1 | -1): number[] | undefined {
  const transposed = jacobian.transpose();
  const covariance = inverse(transposed.mmul(jacobian));
  const downhill = transposed.mmul(Matrix.columnVector(residuals));
  const lowest = covariance.mmul(downhill);
  const room = wanted - (sum - downhill.dot(lowest));
  if (!(room > 0)) return undefined;
  const along = (way * Math.sqrt(room)) / Math.sqrt(covariance.get(k, k));
  return u.map((value, i) => value - lowest.get(i, 0) + along * covariance.get(i, k));
}
