import { END_RUNS, type Profile, profiled } from './profile.ts';
import type { Problem } from './problem.ts';
import { AGAIN_LEAST, searched } from './search.ts';
import { covarianceAround, type Evaluate, missing, type Slopes } from './slopes.ts';

// Weighted nonlinear least squares with a prior on every parameter.

export interface Fit extends Slopes {
  readonly u: readonly number[];
  /** Ends of the 95 % interval of every u, by profile. */
  readonly ends: Profile['ends'];
  readonly before: readonly number[];
  readonly after: readonly number[];
  /** Sum of squared weighted residuals of the measurements, prior left out. */
  readonly chiSquareBefore: number;
  readonly chiSquareAfter: number;
  readonly evaluations: number;
}

/** Steps that lower the sum of squares; most fits need less than ten. */
const ROUNDS = 24;
/** Searches begun again where the way to the end of an interval met a lower sum. */
const AGAIN_MOST = 3;

export function fitted(problem: Problem): Fit {
  const { parameters, rounds = ROUNDS } = problem;
  const runsMost = runsAtMost(parameters, rounds);
  let evaluations = 0;
  let least = Number.POSITIVE_INFINITY;
  const known = new Map<string, readonly number[]>();
  const evaluate: Evaluate = (u) => {
    const key = u.join();
    const found = known.get(key);
    if (found) return found;
    evaluations += 1;
    const values = problem.model(u).map((value, i) => (Number.isFinite(value) ? value : missing(problem, i)));
    known.set(key, values);
    least = Math.min(least, chiSquare(values, problem));
    problem.told?.({ runs: Math.min(evaluations, runsMost), runsMost, chiSquare: least });
    return values;
  };
  const origin = Array.from({ length: parameters }, () => 0);
  let found = around(searched(evaluate, problem, rounds, origin), evaluate, problem);
  for (let again = 0; again < AGAIN_MOST && found.fit.sum - found.least.sum > AGAIN_LEAST; again++)
    found = around(searched(evaluate, problem, rounds, found.least.u), evaluate, problem);
  const { fit, slopes, covariance, ends } = found;
  const [before, after] = [evaluate(origin), evaluate(fit.u)];
  return {
    u: fit.u,
    slopes,
    covariance,
    ends,
    before,
    after,
    chiSquareBefore: chiSquare(before, problem),
    chiSquareAfter: chiSquare(after, problem),
    evaluations,
  };
}

/** Slopes and intervals at the end of a search. */
function around(u: readonly number[], evaluate: Evaluate, problem: Problem): Slopes & Profile {
  const slopes = covarianceAround(evaluate, u, problem);
  return { ...slopes, ...profiled(evaluate, u, slopes, problem) };
}

/** A step takes two runs a parameter for slopes and one to try, seldom more; in the end the slopes are taken twice more, and the ends of the intervals sought. */
function runsAtMost(parameters: number, rounds: number): number {
  return 1 + rounds * (2 * parameters + 1) + 4 * parameters + 2 * parameters * END_RUNS;
}

function chiSquare(values: readonly number[], { measured, deviation }: Problem): number {
  return values.reduce((sum, value, i) => sum + ((value - measured[i]) / deviation[i]) ** 2, 0);
}
