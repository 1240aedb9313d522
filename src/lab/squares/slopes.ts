import { Matrix, inverse } from 'ml-matrix';
import type { Problem } from './problem.ts';

// How every measurement changes with every parameter, and what that says about the parameters.

/** The model, with answers remembered. */
export type Evaluate = (u: readonly number[]) => readonly number[];

export interface Slopes {
  /** Change of every measurement with every u; one row for each measurement. */
  readonly slopes: readonly (readonly number[])[];
  /** Covariance of u; the deviations of the measurements are taken as they were given. */
  readonly covariance: readonly (readonly number[])[];
}

/** Residual where the model has no value, in deviations: far from every measurement, but finite, so that the search turns back. */
export const NO_ANSWER = 1e6;

/** What stands for the value of a measurement where the model has none. */
export function missing({ measured, deviation }: Problem, i: number): number {
  return measured[i] + NO_ANSWER * deviation[i];
}

/**
 * Slopes are taken twice: with the given step, and then over the width that results, at most that of the prior. An interval says what
 * holds over its own width; over a short step the jumps of a model with time steps would look like information.
 */
export function covarianceAround(evaluate: Evaluate, u: readonly number[], problem: Problem): Slopes {
  const { prior, step } = problem;
  const close = slopesWith(
    evaluate,
    u,
    u.map(() => step),
    problem,
  );
  return prior ? slopesWith(evaluate, u, widthsOf(close, step), problem) : close;
}

/** Standard deviations of u, at least `least`. */
export function widthsOf({ covariance }: Slopes, least: number): number[] {
  return covariance.map((row, k) => Math.max(least, Math.sqrt(row[k])));
}

export function slopesWith(evaluate: Evaluate, u: readonly number[], steps: readonly number[], problem: Problem): Slopes {
  const slopes = slopesAt(evaluate, u, steps, problem);
  return { slopes, covariance: covarianceOf(slopes, problem.deviation, problem.prior) };
}

/** Slopes over these steps to both sides, within the bounds; 0 where the model has no value on one side. */
export function slopesAt(evaluate: Evaluate, u: readonly number[], steps: readonly number[], problem: Problem): number[][] {
  const { bounds } = problem;
  const columns = u.map((value, k) => {
    const [low, high] = [Math.max(value - steps[k], bounds?.least[k] ?? -Infinity), Math.min(value + steps[k], bounds?.most[k] ?? Infinity)];
    const [down, up] = [low, high].map((moved) => evaluate(u.map((other, i) => (i === k ? moved : other))));
    const answered = (values: readonly number[], i: number): boolean => values[i] !== missing(problem, i);
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
