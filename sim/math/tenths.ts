/** Rounded to a tenth. */
export function tenths(value: number): number {
  return Math.round(value * 10) / 10;
}
