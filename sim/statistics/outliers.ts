import { deviationOf, meanOf } from './statistics.ts';
import { tQuantile } from '../math/student.ts';
import { square } from '../math/square.ts';

// Outlier tests, each with its level and sidedness in words: the same number goes by two names in different tables.

export type Sidedness = 'two-sided' | 'one-sided';

export interface OutlierTest {
  readonly test: 'Dixon Q' | 'Grubbs G';
  /** The value farthest from the others. */
  readonly suspect: number;
  readonly statistic: number;
  readonly critical: number;
  readonly level: string;
  /** The statistic is beyond its critical value. */
  readonly flagged: boolean;
  /** What the test can say at this n. */
  readonly caution: string;
}

/**
 * Critical Q (r10) for N = 3 to 10 by two-sided error. Rorabacher 1991, Anal. Chem. 63, 139-146, read in an open table.
 * A copy of Dean and Dixon's table calls 0.941, 0.765, 0.642 the 5 % level: one-sided, the same numbers.
 */
const Q_CRITICAL: Readonly<Record<string, readonly number[]>> = {
  '0.1': [0.941, 0.765, 0.642, 0.56, 0.507, 0.468, 0.437, 0.412],
  '0.05': [0.97, 0.829, 0.71, 0.625, 0.568, 0.526, 0.493, 0.466],
  '0.01': [0.994, 0.926, 0.821, 0.74, 0.68, 0.634, 0.598, 0.568],
};

export type DixonError = 0.1 | 0.05 | 0.01;

/** Largest possible G: (n - 1) / sqrt(n), 1.1547 at n = 3. */
export function grubbsLimit(n: number): number {
  return (n - 1) / Math.sqrt(n);
}

/** Critical G from t. Grubbs 1969; NIST handbook 1.3.5.17, recalled. For N = 7, two-sided 5 %, it is 2.020; an open table prints 2.202. */
export function grubbsCritical(n: number, error = 0.05, sidedness: Sidedness = 'two-sided'): number {
  const tail = sidedness === 'two-sided' ? error / n : (2 * error) / n;
  const t2 = square(tQuantile(1 - tail, n - 2));
  return grubbsLimit(n) * Math.sqrt(t2 / (n - 2 + t2));
}

/** undefined outside N = 3 to 10 or without spread. */
export function dixonQ(values: readonly number[], error: DixonError = 0.1): OutlierTest | undefined {
  const sorted = [...values].sort((a, b) => a - b);
  const n = sorted.length;
  const range = sorted[n - 1] - sorted[0];
  if (n < 3 || n > 10 || range === 0) return undefined;
  const low = sorted[1] - sorted[0];
  const high = sorted[n - 1] - sorted[n - 2];
  const statistic = Math.max(low, high) / range;
  const critical = Q_CRITICAL[String(error)][n - 3];
  const level = `${100 * (1 - error)} % two-sided (${100 * (1 - error / 2)} % one-sided)`;
  return {
    test: 'Dixon Q',
    suspect: high >= low ? sorted[n - 1] : sorted[0],
    statistic,
    critical,
    level,
    flagged: statistic > critical,
    caution: cautionAt(n),
  };
}

/** undefined below N = 3 or without spread. */
export function grubbs(values: readonly number[], error = 0.05, sidedness: Sidedness = 'two-sided'): OutlierTest | undefined {
  const n = values.length;
  const s = n > 2 ? deviationOf(values) : 0;
  if (s === 0) return undefined;
  const mean = meanOf(values);
  const suspect = values.reduce((worst, value) => (Math.abs(value - mean) > Math.abs(worst - mean) ? value : worst));
  const statistic = Math.abs(suspect - mean) / s;
  const critical = grubbsCritical(n, error, sidedness);
  return { test: 'Grubbs G', suspect, statistic, critical, level: `${100 * (1 - error)} % ${sidedness}`, flagged: statistic > critical, caution: cautionAt(n) };
}

function cautionAt(n: number): string {
  if (n > 3) return 'Examine a flagged value, but keep it unless you find a cause.';
  return 'With three results these tests say little: G can never exceed 1.1547, so a value is flagged only when the other two nearly coincide by chance. Titrate a fourth time.';
}
