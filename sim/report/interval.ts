import { square } from '../math/square.ts';
import { replicatesOf } from '../statistics/index.ts';
import { type BudgetTerm, budgetOf, rootSumSquares, type Spread } from './budget.ts';

// From an error budget to an interval for the molarity. Unless another is chosen a tolerance counts as triangular (values near the
// nominal are more likely; EURACHEM QUAM, recalled), which is how the glass of a bench is drawn.

export interface Interval {
  readonly level: number;
  readonly found_M: number;
  readonly halfWidth_M: number;
  readonly low_M: number;
  readonly high_M: number;
  /** Standard uncertainties, relative: of what is new each time, for one titration, and of what all of a bench share. */
  readonly once_percent: number;
  readonly bench_percent: number;
}

const LEVEL = 0.95;
/** Half of a 95 % interval over its standard uncertainty: standard normal distribution, two-sided; any table. */
export const COVERAGE = 1.959964;

/** Interval of a mean of `n` titrations of one eluate, loaded once: reading and end point are repeated, the rest is not. */
export function intervalOf(found_M: number, terms: readonly BudgetTerm[], n = 1, spread: Spread = 'triangular'): Interval {
  const once_percent = relative(terms, 'once', spread);
  const bench_percent = relative(terms, 'bench', spread);
  const repeated = REPEATED.reduce(
    (sum, quantity) =>
      sum +
      square(
        relativeOf(
          terms.filter((term) => term.quantity === quantity),
          spread,
        ),
      ),
    0,
  );
  const variance = square(once_percent) + square(bench_percent) - repeated * (1 - 1 / n);
  return around(found_M, (COVERAGE * Math.sqrt(variance) * found_M) / 100, once_percent, bench_percent);
}

/** Errors that differ from one titration of an eluate to the next. */
const REPEATED = ['two burette readings', 'end point, to one drop', 'pipetting by hand'];

/**
 * Interval of the mean of several aliquots that each went over the column: their scatter by Student's t, and what the bench
 * shares and scatter cannot show. One aliquot has the interval of its titration.
 */
export function intervalOfMean(aliquots: readonly Interval[]): Interval | undefined {
  const [first] = aliquots;
  if (!first || aliquots.length === 1) return first;
  const { summary } = replicatesOf(
    aliquots.map(({ found_M }) => found_M),
    undefined,
    LEVEL,
  );
  if (!summary) return first;
  const { mean, halfWidth: scatter } = summary;
  const shared = (COVERAGE * first.bench_percent * mean) / 100;
  return around(mean, rootSumSquares([scatter, shared]), first.once_percent, first.bench_percent);
}

function around(found_M: number, halfWidth_M: number, once_percent: number, bench_percent: number): Interval {
  return { level: LEVEL, found_M, halfWidth_M, low_M: found_M - halfWidth_M, high_M: found_M + halfWidth_M, once_percent, bench_percent };
}

function relative(terms: readonly BudgetTerm[], lasts: BudgetTerm['lasts'], spread: Spread): number {
  return relativeOf(
    terms.filter((term) => term.lasts === lasts),
    spread,
  );
}

function relativeOf(terms: readonly BudgetTerm[], spread: Spread): number {
  return terms.length > 0 ? budgetOf(terms, spread).relative_percent : 0;
}
