import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { Matrix, inverse } from 'ml-matrix';

// Weighted nonlinear least squares with a prior on every parameter, by the Levenberg-Marquardt method of a library. Parameters are
// in units of their own width around their start, u = 0 at the start, so that one step size suits all.

export interface Problem {
  /** Value of the model for every measurement. Does not throw; NaN where the model has no value. */
  readonly model: (u: readonly number[]) => readonly number[];
  readonly measured: readonly number[];
  /** Standard deviation of every measurement. */
  readonly deviation: readonly number[];
  readonly parameters: number;
  /** Least and most of every u. */
  readonly bounds?: { readonly least: readonly number[]; readonly most: readonly number[] };
  /** Every u is near 0 within 1 (one standard deviation) before anything was measured. */
  readonly prior: boolean;
  /** Step of u for slopes; too small a step would show the time steps of the model. */
  readonly step: number;
  readonly rounds?: number;
  /** Called after every run of the model with the number of runs, the most that are possible and the smallest sum of squares so far. */
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
  /** Change of every measurement with every u, of which the covariance was made; one row for each measurement. */
  readonly slopes: readonly (readonly number[])[];
  readonly before: readonly number[];
  readonly after: readonly number[];
  /** Sum of squared weighted residuals of the measurements, prior left out. */
  readonly chiSquareBefore: number;
  readonly chiSquareAfter: number;
  readonly evaluations: number;
}

/** The model, with answers remembered. */
type Evaluate = (u: readonly number[]) => readonly number[];

/** Steps that lower the sum of squares; most fits need less than ten. */
const ROUNDS = 24;
/** A step that lowers the sum of squares by less than this share has arrived. */
const GAIN_LEAST = 1e-4;
/** Damping of the first step, what it is divided by after a step that gained, and multiplied with after one that did not. */
const DAMPING = { first: 1e-2, down: 9, up: 11 } as const;
/** With this much damping a step changes nothing that could be noticed; what is left is the roughness of the model. */
const DAMPING_MOST = 1e9;
/** Residual where the model has no value, in deviations: far from every measurement, but finite, so that the search turns back. */
export const NO_ANSWER = 1e6;

export function fitted(problem: Problem): Fit {
  const { measured, deviation, parameters, prior, bounds, rounds = ROUNDS } = problem;
  const runsMost = runsAtMost(parameters, rounds);
  let evaluations = 0;
  let least = Number.POSITIVE_INFINITY;
  const known = new Map<string, readonly number[]>();
  const evaluate: Evaluate = (u) => {
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
  // One step of the library at a time: it continues from a step that failed, and would begin with little damping each time.
  for (let gained = 0, damping: number = DAMPING.first; gained < rounds && damping < DAMPING_MOST; ) {
    const found = levenbergMarquardt(data, at, {
      initialValues: u,
      damping,
      gradientDifference: problem.step,
      centralDifference: true,
      maxIterations: 1,
      errorTolerance: 1e-12,
      ...(bounds && { minValues: bounds.least, maxValues: bounds.most }),
    });
    // The library returns the better of start and step.
    const moved = found.parameterValues.some((value, k) => value !== u[k]);
    const gain = error - found.parameterError;
    error = found.parameterError;
    damping = moved ? damping / DAMPING.down : damping * DAMPING.up;
    if (!moved) continue;
    u = found.parameterValues;
    gained += 1;
    if (!(gain > GAIN_LEAST * error)) break;
  }
  const before = evaluate(u.map(() => 0));
  const after = evaluate(u);
  return {
    u,
    ...covarianceAround(evaluate, u, problem),
    before,
    after,
    chiSquareBefore: chiSquare(before, problem),
    chiSquareAfter: chiSquare(after, problem),
    evaluations,
  };
}

/** A step takes two runs a parameter for slopes and one to try, seldom more; in the end the slopes are taken twice more. */
function runsAtMost(parameters: number, rounds: number): number {
  return 1 + rounds * (2 * parameters + 1) + 4 * parameters;
}

function chiSquare(values: readonly number[], { measured, deviation }: Problem): number {
  return values.reduce((sum, value, i) => sum + ((value - measured[i]) / deviation[i]) ** 2, 0);
}

/**
 * Slopes are taken twice: with the given step, and then over the width that results, at most that of the prior. An interval says what
 * holds over its own width; over a short step the jumps of a model with time steps would look like information.
 */
function covarianceAround(evaluate: Evaluate, u: readonly number[], problem: Problem): Pick<Fit, 'covariance' | 'slopes'> {
  const { deviation, prior, step } = problem;
  const along = (steps: readonly number[]): Pick<Fit, 'covariance' | 'slopes'> => {
    const slopes = slopesAt(evaluate, u, steps, problem);
    return { slopes, covariance: covarianceOf(slopes, deviation, prior) };
  };
  const close = along(u.map(() => step));
  return prior ? along(u.map((_, k) => Math.max(step, Math.sqrt(close.covariance[k][k])))) : close;
}

/** Change of every measurement with every u, one row for each measurement; 0 where the model has no value on one side. */
function slopesAt(evaluate: Evaluate, u: readonly number[], steps: readonly number[], { measured, deviation, bounds }: Problem): number[][] {
  const columns = u.map((value, k) => {
    const [low, high] = [Math.max(value - steps[k], bounds?.least[k] ?? -Infinity), Math.min(value + steps[k], bounds?.most[k] ?? Infinity)];
    const [down, up] = [low, high].map((moved) => evaluate(u.map((other, i) => (i === k ? moved : other))));
    const answered = (values: readonly number[], i: number): boolean => values[i] !== measured[i] + NO_ANSWER * deviation[i];
    return up.map((value, i) => (answered(up, i) && answered(down, i) && high > low ? (value - down[i]) / (high - low) : 0));
  });
  return columns[0].map((_, i) => columns.map((column) => column[i]));
}

/** (J' W J + prior)^-1, the usual linear estimate at the optimum. */
export function covarianceOf(slopes: readonly (readonly number[])[], deviation: readonly number[], prior: boolean): number[][] {
  const jacobian = new Matrix(slopes.map((row, i) => row.map((slope) => slope / deviation[i])));
  const information = jacobian.transpose().mmul(jacobian);
  if (prior) information.add(Matrix.eye(information.rows));
  return inverse(information).to2DArray();
}
