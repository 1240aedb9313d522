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
/** A sum this many standard deviations above what is usual, which is the number of readings (chi-square), may be that of a hollow beside the lowest. About one in twenty are by chance. */
const POOR = 1.645;
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
  let found = around(sought(evaluate, problem, rounds, origin), evaluate, problem);
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

/** The best place that is known: that of a search, or of a second one from the other side where the first fits poorly. */
function sought(evaluate: Evaluate, problem: Problem, rounds: number, start: readonly number[]): readonly number[] {
  const { prior, measured } = problem;
  const sumOf = (u: readonly number[]): number => chiSquare(evaluate(u), problem) + u.reduce((sum, value) => sum + value * value, 0);
  const first = searched(evaluate, problem, rounds, start);
  if (!prior || sumOf(first) < measured.length + POOR * Math.sqrt(2 * measured.length)) return first;
  const second = searched(
    evaluate,
    problem,
    rounds,
    first.map((value) => -value / 2),
  );
  return sumOf(second) < sumOf(first) - AGAIN_LEAST ? second : first;
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
