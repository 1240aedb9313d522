/**
 * Monotone cubic interpolation through points with increasing `xs`: never overshoots the data.
 * M. Steffen, Astron. Astrophys. 239 (1990) 443, eqs. 2, 8, 11 (recalled). Held constant outside.
 */
export function monotoneCubic(xs: readonly number[], ys: readonly number[]): (x: number) => number {
  const n = xs.length;
  const steps = xs.slice(1).map((x, i) => x - xs[i]);
  const slopes = steps.map((h, i) => (ys[i + 1] - ys[i]) / h);
  const tangents = xs.map((_, i) => {
    if (i === 0 || i === n - 1) return slopes[Math.min(i, n - 2)] ?? 0;
    const [a, b] = [slopes[i - 1], slopes[i]];
    const p = (a * steps[i] + b * steps[i - 1]) / (steps[i - 1] + steps[i]);
    return (Math.sign(a) + Math.sign(b)) * Math.min(Math.abs(a), Math.abs(b), Math.abs(p) / 2);
  });
  return (x) => {
    if (n === 1 || x <= xs[0]) return ys[0];
    if (x >= xs[n - 1]) return ys[n - 1];
    const i = xs.findIndex((edge) => edge > x) - 1;
    const t = (x - xs[i]) / steps[i];
    const a = ys[i] + t * steps[i] * tangents[i];
    const b = ys[i + 1] - (1 - t) * steps[i] * tangents[i + 1];
    // Hermite basis gathered as (1-t)²(1+2t) y0 + t²(3-2t) y1 plus the tangent terms.
    return (1 - t) ** 2 * (a + 2 * t * ys[i]) + t ** 2 * (b + 2 * (1 - t) * ys[i + 1]);
  };
}
