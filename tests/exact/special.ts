// Special functions behind the closed forms of column transport. Used by tests only; nothing here is shared with the model.
// Abramowitz and Stegun 1964 (recalled) unless a function says otherwise.

const EPSILON = 2 ** -53;
/** Smallest divisor allowed in a continued fraction (Lentz 1976, recalled). */
const TINY = 1e-300;
/** Lanczos coefficients for g = 7, nine terms (Godfrey 2001, recalled; relative error about 1e-15). */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905, -0.13857109526572012,
  9.9843695780195716e-6, 1.5056327351493116e-7,
];
/** Above this argument the asymptotic series of I0 and I1 reaches double precision (terms shrink until about 2x). */
const BESSEL_ASYMPTOTIC = 30;

/** ln Gamma(x), x > 0. */
export function lnGamma(x: number): number {
  const z = x - 1;
  const sum = LANCZOS.reduce((total, coefficient, i) => (i === 0 ? coefficient : total + coefficient / (z + i)), 0);
  const base = z + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(base) - base + Math.log(sum);
}

/** P(a, x): the regularised lower incomplete gamma function. A&S 6.5.1. */
export function gammaP(a: number, x: number): number {
  if (x <= 0) return 0;
  return x < a + 1 ? gammaSeries(a, x) : 1 - gammaFraction(a, x);
}

/** Q(a, x) = 1 - P(a, x). */
export function gammaQ(a: number, x: number): number {
  if (x <= 0) return 1;
  return x < a + 1 ? 1 - gammaSeries(a, x) : gammaFraction(a, x);
}

/** e^(x²) erfc(x), which neither overflows nor vanishes for large positive x. */
export function erfcx(x: number): number {
  if (x < 2) return Math.exp(x * x) * erfc(x);
  return erfcxFraction(x);
}

/** Complementary error function. A&S 7.1.2. */
export function erfc(x: number): number {
  if (x < 0) return 2 - erfc(-x);
  if (x >= 2) return Math.exp(-x * x) * erfcxFraction(x);
  let term = (2 / Math.sqrt(Math.PI)) * x * Math.exp(-x * x);
  let sum = term;
  for (let n = 1; term > sum * EPSILON; n++) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
  }
  return 1 - sum;
}

/** e^-|x| I0(x). A&S 9.6.12 and 9.7.1. */
export function besselI0Scaled(x: number): number {
  return besselScaled(0, Math.abs(x));
}

/** e^-|x| I1(x). */
export function besselI1Scaled(x: number): number {
  return Math.sign(x) * besselScaled(1, Math.abs(x));
}

/**
 * J(x, y) = 1 - integral from 0 to x of e^(-y-s) I0(2 sqrt(y s)) ds, of Anzelius 1926 and Thomas 1944 (recalled).
 * Summed as a Poisson mixture: J = sum over k of e^-y y^k/k! Q(k+1, x), the upper tail at 2x of the noncentral
 * chi-squared distribution with 2 degrees of freedom and noncentrality 2y (derived; all terms positive).
 */
export function jFunction(x: number, y: number): number {
  return poissonMixture(y, (k) => gammaQ(k + 1, x));
}

/** 1 - J(x, y) without cancellation. */
export function jComplement(x: number, y: number): number {
  return poissonMixture(y, (k) => gammaP(k + 1, x));
}

/** Number of ways to choose k of n, real for large n. */
export function binomial(n: number, k: number): number {
  let product = 1;
  for (let i = 1; i <= k; i++) product *= (n - k + i) / i;
  return product;
}

function gammaSeries(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; term > sum * EPSILON; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum * Math.exp(a * Math.log(x) - x - lnGamma(a));
}

/** Legendre's continued fraction for Q, by the modified Lentz rule. */
function gammaFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let h = d;
  for (let n = 1; n < 10000; n++) {
    const an = -n * (n - a);
    b += 2;
    d = 1 / nonzero(an * d + b);
    c = nonzero(b + an / c);
    h *= d * c;
    if (Math.abs(d * c - 1) < EPSILON * 4) break;
  }
  return h * Math.exp(a * Math.log(x) - x - lnGamma(a));
}

/** sqrt(pi) erfcx(x) = 1/(x + (1/2)/(x + 1/(x + (3/2)/(x + ...)))), evaluated from the far end. */
function erfcxFraction(x: number): number {
  let tail = x;
  for (let n = Math.ceil(20 + 400 / (x * x)); n >= 1; n--) tail = x + n / 2 / tail;
  return 1 / (tail * Math.sqrt(Math.PI));
}

function besselScaled(order: 0 | 1, x: number): number {
  return x < BESSEL_ASYMPTOTIC ? besselSeries(order, x) : besselAsymptotic(order, x);
}

function besselSeries(order: 0 | 1, x: number): number {
  let term = order === 0 ? 1 : x / 2;
  let sum = term;
  for (let k = 1; term > sum * EPSILON; k++) {
    term *= (x * x) / 4 / (k * (k + order));
    sum += term;
  }
  return sum * Math.exp(-x);
}

function besselAsymptotic(order: 0 | 1, x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; Math.abs(term) > EPSILON && k < 2 * x; k++) {
    term *= ((2 * k - 1) ** 2 - 4 * order * order) / (8 * k * x);
    sum += term;
  }
  return sum / Math.sqrt(2 * Math.PI * x);
}

/** Sum over k of the Poisson weight of k, mean `mean`, times f(k), from the mode outwards. */
function poissonMixture(mean: number, f: (k: number) => number): number {
  const mode = Math.floor(mean);
  const peak = Math.exp(mode * Math.log(mean || 1) - mean - lnGamma(mode + 1));
  let sum = 0;
  for (let k = mode, weight = peak; weight > 1e-18 * sum; k++, weight *= mean / k) sum += weight * f(k);
  for (let k = mode - 1, weight = (peak * mode) / mean; k >= 0 && weight > 1e-18 * sum; weight *= k / mean, k--) sum += weight * f(k);
  return sum;
}

function nonzero(x: number): number {
  return Math.abs(x) < TINY ? TINY : x;
}
