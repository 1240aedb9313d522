import { abs, type Complex, div, exp, mul } from './complex.ts';

// Numerical inversion of Laplace transforms on a vertical line by the trapezoidal rule, which is the Fourier series of
// e^(-shift t) f(t): Dubner and Abate 1968, J. ACM 15, 115; error analysis in Abate and Whitt 1992, Queueing Systems 10, 5
// (recalled). Wrapped copies of f are damped by e^(-DAMPING) each; transforms of smooth responses fade fast enough to be
// summed to the end.

/** Period over the time asked for. */
const PERIODS = 8;
/** shift times period: a wrapped copy weighs e^-34 = 2e-15. */
const DAMPING = 34;
/** Terms below this share of the first one end the sum. */
const NEGLIGIBLE = 1e-17;
const TERMS_MAX = 2_000_000;

/** Laplace transform of a response. */
export type Transform = (s: Complex) => Complex;

/** f(t) from its transform. */
export function invert(transform: Transform, t: number): number {
  const period = PERIODS * t;
  const shift = DAMPING / period;
  const first = transform([shift, 0])[0];
  let sum = first;
  for (let m = 1; m < TERMS_MAX; m++) {
    const omega = (2 * Math.PI * m) / period;
    const value = transform([shift, omega]);
    sum += 2 * mul(value, exp([0, omega * t]))[0];
    if (abs(value) < NEGLIGIBLE * first) return (Math.exp(shift * t) * sum) / period;
  }
  throw new Error(`transform: expected to fade within ${TERMS_MAX} terms, received ${abs(transform([shift, (2 * Math.PI * TERMS_MAX) / period]))} at the last`);
}

/** Integral of f from 0 to t, from the transform of f. */
export function invertIntegral(transform: Transform, t: number): number {
  return invert((s) => div(transform(s), s), t);
}
