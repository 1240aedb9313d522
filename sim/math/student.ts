import { rootOf } from './root.ts';
import { exp, ln, log1p } from './elementary.ts';

// Student's t distribution through the incomplete beta function.

/** Two-sided probability that |t| is below `t` with `df` degrees of freedom. */
export function tProbability(t: number, df: number): number {
  return 1 - incompleteBeta(df / (df + t * t), df / 2, 0.5);
}

/** t that |t| exceeds with probability 1 - level (two-sided), such as 4.303 for 0.95 and 2. */
export function tQuantile(level: number, df: number): number {
  const outside = 1 - level;
  const short = (lnT: number) => ln(incompleteBeta(df / (df + exp(2 * lnT)), df / 2, 0.5) / outside);
  return exp(rootOf(short, -12, 40, 1e-13));
}

/** I_x(a, b) by its continued fraction, modified Lentz. Press et al., Numerical Recipes, 6.4, recalled. */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = exp(lnGamma(a + b) - lnGamma(a) - lnGamma(b) + a * ln(x) + b * log1p(-x));
  return x < (a + 1) / (a + b + 2) ? (front * betaFraction(x, a, b)) / a : 1 - (front * betaFraction(1 - x, b, a)) / b;
}

const TINY = 1e-300;

function betaFraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / awayFromZero(1 - ((a + b) * x) / (a + 1));
  let h = d;
  for (let m = 1; m <= 500; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / awayFromZero(1 + even * d);
    c = awayFromZero(1 + even / c);
    h *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / awayFromZero(1 + odd * d);
    c = awayFromZero(1 + odd / c);
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return h;
}

function awayFromZero(value: number): number {
  return Math.abs(value) < TINY ? TINY : value;
}

/** Lanczos, g = 7, nine terms; coefficients of P. Godfrey, recalled. */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905, -0.13857109526572012,
  9.9843695780195716e-6, 1.5056327351493116e-7,
];

export function lnGamma(x: number): number {
  const z = x - 1;
  const t = z + 7.5;
  const sum = LANCZOS.reduce((total, term, i) => (i === 0 ? term : total + term / (z + i)), 0);
  return 0.5 * ln(2 * Math.PI) + (z + 0.5) * ln(t) - t + ln(sum);
}
