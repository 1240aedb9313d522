import { dixonQ, grubbs, type OutlierTest } from './outliers.ts';
import { type Comparison, comparisonOf, type Summary, summaryOf } from './statistics.ts';

// Results set side by side: aliquots that each went over the column, and titrations of one eluate.

export interface Replicates {
  readonly values: readonly number[];
  /** undefined for fewer than two values. */
  readonly summary: Summary | undefined;
  /** Against the true value, where it is known. */
  readonly comparison: Comparison | undefined;
  readonly outliers: readonly OutlierTest[];
}

export interface Contrast {
  readonly columns: Replicates;
  readonly titrations: Replicates;
  /** Standard deviation that the columns add to that of titrating; 0 if they show none. undefined without spread in both. */
  readonly columnSpread: number | undefined;
  readonly text: string;
}

export function replicatesOf(values: readonly number[], truth?: number, level = 0.95): Replicates {
  const summary = summaryOf(values, level);
  const comparison = summary && truth !== undefined ? comparisonOf(summary, truth) : undefined;
  const outliers = [dixonQ(values), grubbs(values)].filter((test) => test !== undefined);
  return { values, summary, comparison, outliers };
}

/** Results of aliquots run one after another over the column, beside titrations of a single eluate. */
export function contrastOf(columnResults: readonly number[], titrationResults: readonly number[], truth?: number, level = 0.95): Contrast {
  const columns = replicatesOf(columnResults, truth, level);
  const titrations = replicatesOf(titrationResults, truth, level);
  const s = columns.summary?.s;
  const sTitration = titrations.summary?.s;
  const columnSpread = s === undefined || sTitration === undefined ? undefined : Math.sqrt(Math.max(0, s * s - sTitration * sTitration));
  return { columns, titrations, columnSpread, text: CONTRAST_TEXT };
}

const CONTRAST_TEXT =
  'Titrations of one eluate repeat only the titration. What was loaded, what was lost on the column and what nickel and acid came along is the same in all of them and does not show in their spread. Aliquots that were each run over the column repeat everything.';
