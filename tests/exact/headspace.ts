// Volumes before, around and beside the moving liquid that spread a band.

/** Share of the old liquid left in a stirred head of constant volume. */
export function headLeft(head: number, passed: number): number {
  return Math.exp(-passed / head);
}

/** Mean and variance (mL) behind a bed of N plates, a stirred volume and a plug volume in a row. */
export function extraColumn(
  retention: number,
  N: number,
  stirred: number,
  plug: number,
): { readonly mean: number; readonly variance: number; readonly plates: number } {
  const mean = retention + stirred + plug;
  const variance = (retention * retention) / N + stirred * stirred;
  return { mean, variance, plates: (mean * mean) / variance };
}

/** Standard deviation (cm) that a band gains while the clamp is shut for t seconds: 2 gamma D t/(1+k). */
export function stopFlowSpread(D: number, obstruction: number, k: number, t: number): number {
  return Math.sqrt((2 * obstruction * D * t) / (1 + k));
}

/**
 * Effluent mean and variance of N stirred cells whose liquid is partly stagnant: mobile time t0, stagnant over mobile volume
 * `ratio`, exchange `rate` (1/time) of the stagnant part; the same algebra as slow uptake with k = ratio, kL = rate
 * (Coats and Smith 1964, van Genuchten and Wierenga 1976, recalled).
 */
export function stagnantMoments(N: number, t0: number, ratio: number, rate: number): { readonly mean: number; readonly variance: number } {
  const mean = t0 * (1 + ratio);
  return { mean, variance: mean ** 2 / N + (2 * t0 * ratio) / rate };
}
