/** How a figure is spread over a class. */
export interface Distribution {
  /** How many groups have the figure. */
  readonly n: number;
  readonly median: number;
  readonly low10: number;
  readonly high90: number;
  readonly least: number;
  readonly most: number;
}

/** Undefined where nobody has the figure. */
export function distributionOf(values: readonly (number | undefined)[]): Distribution | undefined {
  const sorted = values
    .filter((value) => value !== undefined)
    .filter(Number.isFinite)
    .sort((a, b) => a - b);
  if (sorted.length === 0) return undefined;
  return {
    n: sorted.length,
    median: quantileOf(sorted, 0.5),
    low10: quantileOf(sorted, 0.1),
    high90: quantileOf(sorted, 0.9),
    least: sorted[0],
    most: sorted[sorted.length - 1],
  };
}

/** Quantile of sorted values, linear between them: definition 7 of Hyndman and Fan, Am. Stat. 50 (1996) 361 (recalled). */
export function quantileOf(sorted: readonly number[], share: number): number {
  const at = share * (sorted.length - 1);
  const below = Math.floor(at);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
}
