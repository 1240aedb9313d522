// Replicates of a result: mean, spread, outliers. Other rooms import from here.
export type { OutlierTest } from './outliers.ts';
export { type Contrast, contrastOf, type Replicates, replicatesOf } from './replicate.ts';
export { meanOf, type Summary, summaryOf } from './statistics.ts';
