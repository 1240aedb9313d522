import { IONS } from '../../sim/terms/ions.ts';
import { type Contrast, contrastOf, meanOf, type Replicates, replicatesOf, type Summary } from '../../sim/statistics/index.ts';
import { type Budget, COVERAGE, intervalOf, type KeptResult, type Spread, type WorkUp } from '../../sim/report/index.ts';
import { fixed, significant, withUnit } from '../ui/text/format.ts';

// From the kept aliquots to a molarity with its uncertainty.

export type Whose = 'page' | 'own';

export interface Reported {
  readonly values: readonly number[];
  readonly replicates: Replicates;
  readonly true_M: number;
  /** Undefined until an eluate was titrated at least twice and two aliquots are kept. */
  readonly contrast: Contrast | undefined;
}

/** Undefined without a kept aliquot; `own`: as the reader calculated, where that was done. */
export function reportedOf(kept: readonly KeptResult[], whose: Whose): Reported | undefined {
  const [first] = kept;
  if (!first) return undefined;
  const values = kept.flatMap(({ own_M, found_M }) => (whose === 'page' ? [meanOf(found_M)] : own_M === null ? [] : [own_M]));
  if (values.length === 0) return undefined;
  const most = kept.reduce((best, one) => (one.found_M.length > best.found_M.length ? one : best));
  const firsts = kept.map(({ found_M }) => found_M[0] ?? Number.NaN);
  const contrast = kept.length > 1 && most.found_M.length > 1 ? contrastOf(firsts, most.found_M, first.true_M) : undefined;
  return { values, replicates: replicatesOf(values, first.true_M), true_M: first.true_M, contrast };
}

/** Relative spread below which values are the same number, reckoned in binary. */
const SAME = 1e-9;

/** Whether the values differ at all: values that agree to the last digit read tell nothing of how far off each may be. */
export function scatters({ s, mean }: Summary): boolean {
  return s > SAME * Math.abs(mean);
}

/** The mean beside the truth; `true_M` in mol/L. */
export function comparedWords({ summary, comparison }: Replicates, true_M: number): string {
  if (!summary || !comparison) return '';
  if (!scatters(summary))
    return 'The aliquots agree to the last digit read: their scatter gives no interval. The error budget of one titration tells how far each may be off.';
  const { within, difference_percent, t, critical, p } = comparison;
  const found = `The true value lies ${within ? 'inside' : 'outside'} the interval: ${significant(true_M, 4)} mol/L, difference ${withUnit(fixed(difference_percent, 2), '%')}; t ${fixed(t, 2)} against ${fixed(critical, 2)}, p ${significant(p, 2)}.`;
  const cause =
    'Scatter alone does not explain it: look for a cause that all of them share, such as the strength of the EDTA, the pipette or the faint blue that the eye stops at.';
  return within ? found : `${found} ${cause}`;
}

/** The one line that is reported. `budget_percent`, a half-width for 95 %, stands in for a spread while there is none. */
export function reportWords({ values, replicates: { summary } }: Reported, budget_percent: number | undefined): string {
  const mean = meanOf(values);
  const mass = ` (${significant(mean * IONS.Co.molarMass, 4)} g/L)`;
  if (summary && scatters(summary))
    return `${rounded(mean, summary.halfWidth)} ± ${significant(summary.halfWidth, 2)} mol/L${mass}, n = ${summary.n}, 95 % confidence`;
  const half = budget_percent === undefined ? undefined : (mean * budget_percent) / 100;
  return half === undefined
    ? `${significant(mean, 4)} mol/L${mass}, n = ${values.length}`
    : `${rounded(mean, half)} ± ${significant(half, 2)} mol/L${mass}, n = ${values.length}, 95 % from the error budget alone`;
}

/** As many decimals as the second figure of the uncertainty. */
function rounded(value: number, half: number): string {
  if (!(half > 0)) return significant(value, 4);
  const decimals = Math.max(0, 1 - Math.floor(Math.log10(half)));
  return value.toFixed(Math.min(decimals, 8));
}

/** Half of the 95 % interval of the titrations in hand, % of their molarity, with tolerances counted as chosen; undefined before there is one. */
export function budgetPercent(figures: Pick<WorkUp, 'budgets' | 'cobalt' | 'titrations'> | undefined, chosen: Spread): number | undefined {
  const lines = figures?.budgets.find(({ spread }) => spread === chosen)?.lines;
  if (!figures?.cobalt || !lines) return undefined;
  const { found_M, halfWidth_M } = intervalOf(figures.cobalt.found_M, lines, figures.titrations.length, chosen);
  return (100 * halfWidth_M) / found_M;
}

/** Where the reported uncertainty comes from: nothing is reported yet, the budget, or the scatter of the aliquots. */
type Source = 'none' | 'budget' | 'scatter';

export function sourceOf(reported: Reported | undefined): Source {
  if (!reported) return 'none';
  const { summary } = reported.replicates;
  return summary && scatters(summary) ? 'scatter' : 'budget';
}

/** From the squares of a budget to the interval: by what it is multiplied, and which number above it is. */
export function togetherWords({ relative_percent, largest }: Budget, half_percent: number, n: number, source: Source): string {
  const standard = (value: number) => withUnit(fixed(value, 2), '%');
  const mean = n > 1 ? ` for one titration, and ${standard(half_percent / COVERAGE)} for the mean of ${n}, whose readings and end points average out` : '';
  const above = {
    none: '',
    budget: ': the ± of the result above',
    scatter: '. The ± of the result above comes from the scatter of the aliquots instead',
  }[source];
  return `Together ${standard(relative_percent)}${mean}, a standard uncertainty; the ${largest} weighs most. ${fixed(COVERAGE, 2)} times that, ± ${standard(half_percent)}, holds 95 in 100${above}.`;
}

/** What each way to count a tolerance takes for granted. */
export const SPREAD_WORDS: Readonly<Record<Spread, string>> = {
  triangular:
    'A tolerance a is the most that a piece should be off. Values near its mark are likelier than those at the edge, as the glass of this bench is drawn: a/√6.',
  rectangular: 'A tolerance a is the most that a piece should be off. Every value up to it is as likely as any other: a/√3.',
  tolerance: 'A tolerance a is the most that a piece should be off. Here a itself counts as the standard uncertainty, which is on the safe side.',
};
