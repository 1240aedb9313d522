import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { Matrix, inverse } from 'ml-matrix';

// Weighted nonlinear least squares with a prior on every parameter, by the Levenberg-Marquardt method of a library. Parameters are
// in units of their own width around their start, u = 0 at the start, so that one step size suits all.

export interface Problem {
  /** What the model says of every measurement. Throws nothing; NaN where the model has no answer. */
  readonly model: (u: readonly number[]) => readonly number[];
  readonly measured: readonly number[];
  /** Standard deviation of every measurement. */
  readonly deviation: readonly number[];
  readonly parameters: number;
  /** Least and most of every u. */
  readonly bounds?: { readonly least: readonly number[]; readonly most: readonly number[] };
  /** Every u is near 0 within 1 (one standard deviation) before anything was measured. */
  readonly prior: boolean;
  /** Step of u for slopes; a model worked out in steps of its own is rough below some. */
  readonly step: number;
  readonly rounds?: number;
  /** Hears of every run of the model: how many were done, of at most how many, and the least sum of squares that a run has come to. */
  readonly told?: (progress: FitProgress) => void;
}

export interface FitProgress {
  readonly runs: number;
  readonly runsMost: number;
  readonly chiSquare: number;
}

export interface Fit {
  readonly u: readonly number[];
  /** Covariance of u; the deviations of the measurements are taken as they were given. */
  readonly covariance: readonly (readonly number[])[];
  readonly before: readonly number[];
  readonly after: readonly number[];
  /** Sum of squared weighted residuals of the measurements, prior left out. */
  readonly chiSquareBefore: number;
  readonly chiSquareAfter: number;
  readonly evaluations: number;
}

const ROUNDS = 8;
/** Steps of the library between looks at whether it still gains. */
const STEPS_A_ROUND = 3;
/** A round that lowers the sum of squares by less than this share has arrived. */
const GAIN_LEAST = 1e-4;
/** Stands for a model without an answer, in deviations: far from every measurement, but finite, so that the search turns back. */
export const NO_ANSWER = 1e6;

export function fitted(problem: Problem): Fit {
  const { measured, deviation, parameters, prior, bounds, rounds = ROUNDS } = problem;
  const runsMost = runsAtMost(parameters, rounds);
  let evaluations = 0;
  let least = Number.POSITIVE_INFINITY;
  const known = new Map<string, readonly number[]>();
  const evaluate = (u: readonly number[]): readonly number[] => {
    const key = u.join();
    const found = known.get(key);
    if (found) return found;
    evaluations += 1;
    const values = problem.model(u).map((value, i) => (Number.isFinite(value) ? value : measured[i] + NO_ANSWER * deviation[i]));
    known.set(key, values);
    least = Math.min(least, chiSquare(values, problem));
    problem.told?.({ runs: Math.min(evaluations, runsMost), runsMost, chiSquare: least });
    return values;
  };
  // Everything is divided by its deviation here: the library (5.1) weighs the sum of squares and its slopes in different ways.
  const ofPrior = prior ? Array.from({ length: parameters }, () => 0) : [];
  const y = [...measured.map((value, i) => value / deviation[i]), ...ofPrior];
  const data = { x: y.map((_, i) => i), y };
  const at = (u: number[]) => {
    const all = [...evaluate(u).map((value, i) => value / deviation[i]), ...u];
    return (i: number): number => all[i];
  };
  let u: number[] = Array.from({ length: parameters }, () => 0);
  let error = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round++) {
    const found = levenbergMarquardt(data, at, {
      initialValues: u,
      gradientDifference: problem.step,
      centralDifference: true,
      maxIterations: STEPS_A_ROUND,
      errorTolerance: 1e-12,
      ...(bounds && { minValues: bounds.least, maxValues: bounds.most }),
    });
    const gain = error - found.parameterError;
    if (found.parameterError <= error) u = found.parameterValues;
    error = Math.min(error, found.parameterError);
    if (!(gain > GAIN_LEAST * error)) break;
  }
  const before = evaluate(u.map(() => 0));
  const after = evaluate(u);
  return {
    u,
    covariance: covarianceOf(slopesAt(evaluate, u, problem.step), deviation, prior),
    before,
    after,
    chiSquareBefore: chiSquare(before, problem),
    chiSquareAfter: chiSquare(after, problem),
    evaluations,
  };
}

/** A step of the library takes two runs a parameter for slopes and one to try; in the end the slopes are taken once more. */
function runsAtMost(parameters: number, rounds: number): number {
  return 1 + rounds * STEPS_A_ROUND * (2 * parameters + 1) + 2 * parameters;
}

function chiSquare(values: readonly number[], { measured, deviation }: Problem): number {
  return values.reduce((sum, value, i) => sum + ((value - measured[i]) / deviation[i]) ** 2, 0);
}

/** Change of every measurement with every u, a row a measurement. */
function slopesAt(evaluate: (u: readonly number[]) => readonly number[], u: readonly number[], step: number): number[][] {
  const columns = u.map((_, k) => {
    const moved = (by: number) => evaluate(u.map((value, i) => (i === k ? value + by : value)));
    const [up, down] = [moved(step), moved(-step)];
    return up.map((value, i) => (value - down[i]) / (2 * step));
  });
  return columns[0].map((_, i) => columns.map((column) => column[i]));
}

/** (J' W J + prior)^-1, the usual linear estimate at the optimum. */
function covarianceOf(slopes: readonly (readonly number[])[], deviation: readonly number[], prior: boolean): number[][] {
  const jacobian = new Matrix(slopes.map((row, i) => row.map((slope) => slope / deviation[i])));
  const information = jacobian.transpose().mmul(jacobian);
  if (prior) information.add(Matrix.eye(information.rows));
  return inverse(information).to2DArray();
}
