import { IONS } from '../../sim/terms/ions.ts';
import { type Contrast, contrastOf, meanOf, type Replicates, replicatesOf, type Summary } from '../../sim/statistics/index.ts';
import type { KeptResult } from '../../sim/report/index.ts';
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
