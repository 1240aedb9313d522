/** Of the normal distribution, for 95 %. */
const Z = 1.96;

/** Interval of 95 % of a share: Wilson, J. Am. Stat. Assoc. 22 (1927) 209 (recalled). */
export function wilson(hits: number, of: number): readonly [low: number, high: number] {
  const share = hits / of;
  const middle = (share + Z ** 2 / (2 * of)) / (1 + Z ** 2 / of);
  const half = (Z / (1 + Z ** 2 / of)) * Math.sqrt((share * (1 - share)) / of + Z ** 2 / (4 * of ** 2));
  return [middle - half, middle + half];
}
