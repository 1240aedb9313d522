import { tProbability, tQuantile } from '../math/student.ts';
import { square } from '../math/square.ts';

/** Figures of repeated results; s and everything after it need at least two. */
export interface Summary {
  readonly n: number;
  readonly mean: number;
  readonly s: number;
  /** 100 s / mean. */
  readonly rsd_percent: number;
  readonly level: number;
  readonly t: number;
  /** Half-width of the confidence interval of the mean, t s / sqrt(n). */
  readonly halfWidth: number;
}

/** How a mean compares with a value held to be true. */
export interface Comparison {
  readonly difference: number;
  readonly difference_percent: number;
  /** |mean - true| sqrt(n) / s, against the t of the level. */
  readonly t: number;
  readonly critical: number;
  /** Two-sided probability of a difference this large by chance alone. */
  readonly p: number;
  /** The true value is inside the confidence interval. */
  readonly within: boolean;
}

export function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Sample standard deviation, n - 1. */
export function deviationOf(values: readonly number[]): number {
  const mean = meanOf(values);
  return Math.sqrt(values.reduce((sum, value) => sum + square(value - mean), 0) / (values.length - 1));
}

/** undefined for fewer than two values: one result has no spread. */
export function summaryOf(values: readonly number[], level = 0.95): Summary | undefined {
  const n = values.length;
  if (n < 2) return undefined;
  const mean = meanOf(values);
  const s = deviationOf(values);
  const t = tQuantile(level, n - 1);
  return { n, mean, s, rsd_percent: (100 * s) / Math.abs(mean), level, t, halfWidth: (t * s) / Math.sqrt(n) };
}

export function comparisonOf(summary: Summary, truth: number): Comparison {
  const difference = summary.mean - truth;
  const t = summary.s > 0 ? (Math.abs(difference) * Math.sqrt(summary.n)) / summary.s : difference === 0 ? 0 : Infinity;
  return {
    difference,
    difference_percent: (100 * difference) / truth,
    t,
    critical: summary.t,
    p: 1 - tProbability(t, summary.n - 1),
    within: Math.abs(difference) <= summary.halfWidth,
  };
}
