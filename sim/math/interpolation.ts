import { square } from './square.ts';
/**
 * Cubic through points with increasing `xs`, monotone between neighbouring points, so it never overshoots them; held constant outside.
 * M. Steffen, Astron. Astrophys. 239 (1990) 443 (recalled); at the two ends the second derivative is zero.
 */
export function monotoneCubic(xs: readonly number[], ys: readonly number[]): (x: number) => number {
  const top = xs.length - 1;
  const tangents = tangentsOf(xs, ys);
  return (x) => {
    if (top === 0 || x <= xs[0]) return ys[0];
    if (x >= xs[top]) return ys[top];
    const i = intervalOf(xs, x);
    const h = xs[i + 1] - xs[i];
    const t = (x - xs[i]) / h;
    const left = ys[i] * (1 + 2 * t) + t * h * tangents[i];
    const right = ys[i + 1] * (3 - 2 * t) - (1 - t) * h * tangents[i + 1];
    return square(1 - t) * left + t * t * right;
  };
}

function tangentsOf(xs: readonly number[], ys: readonly number[]): number[] {
  const top = xs.length - 1;
  const slope = (i: number) => (ys[i + 1] - ys[i]) / (xs[i + 1] - xs[i]);
  const tangents = xs.map((_, i) => (i > 0 && i < top ? innerTangent(xs[i] - xs[i - 1], xs[i + 1] - xs[i], slope(i - 1), slope(i)) : 0));
  if (top === 1) return [slope(0), slope(0)];
  if (top > 1) {
    tangents[0] = (3 * slope(0) - tangents[1]) / 2;
    tangents[top] = (3 * slope(top - 1) - tangents[top - 1]) / 2;
  }
  return tangents;
}

/** Slope of the parabola through three points, limited to twice the smaller secant; zero where the points turn. */
function innerTangent(before: number, after: number, slopeBefore: number, slopeAfter: number): number {
  const parabola = (slopeBefore * after + slopeAfter * before) / (before + after);
  return (Math.sign(slopeBefore) + Math.sign(slopeAfter)) * Math.min(Math.abs(slopeBefore), Math.abs(slopeAfter), Math.abs(parabola) / 2);
}

/** Index of the last point at or below `x`, by bisection. */
function intervalOf(xs: readonly number[], x: number): number {
  let low = 0;
  let high = xs.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (xs[middle] <= x) low = middle;
    else high = middle;
  }
  return low;
}
