import { add, type Complex, div, exp, log, scale } from './complex.ts';
import { invert, invertIntegral, type Transform } from './laplace.ts';
import { asymmetryOf, type Crossing, platesFromBaseWidth, platesFromHalfWidth, platesFromTurnWidth, tailingOf } from './measure.ts';
import { binomial, gammaP, gammaQ, lnGamma } from './special.ts';

// A bed as N stirred plates in a row. Continuous flow gives a gamma density (Martin and Synge 1941 and Glueckauf 1955, recalled;
// Poisson form in Scott, Plate Theory and Extensions, eq. 12, read); stepwise transfer gives a negative binomial
// (Craig 1944, Mayer and Tompkins 1947, recalled). x is volume over retention volume, N times x the mean number of plates passed.

/** What a chart reader measures on the exact gamma peak, x in units of the retention volume. */
export interface GammaPeak {
  readonly at: number;
  readonly height: number;
  readonly half: Crossing;
  readonly turn: Crossing;
  readonly tangentBase: number;
  readonly five: Crossing;
  readonly ten: Crossing;
  readonly tailing: number;
  readonly asymmetry: number;
  readonly platesHalf: number;
  readonly platesBase: number;
  readonly platesTurn: number;
  readonly skew: number;
  readonly excess: number;
}

/** Plates with uptake at a finite rate: hold-up time t0, retention factor k, rate kL of dq/dt = kL (q* - q). */
export interface SlowPlates {
  readonly N: number;
  readonly t0: number;
  readonly k: number;
  readonly kL: number;
}

export interface Cumulants {
  readonly mean: number;
  readonly variance: number;
  readonly third: number;
}

/** Effluent of an impulse: concentration times retention volume over amount. */
export function gammaPdf(N: number, x: number): number {
  return x <= 0 ? 0 : Math.exp(N * Math.log(N) + (N - 1) * Math.log(x) - N * x - lnGamma(N));
}

/** Share of an impulse that has left. */
export function gammaCdf(N: number, x: number): number {
  return gammaP(N, N * x);
}

/** Effluent over feed concentration of a feed that lasts for vs retention volumes. */
export function rectangularFeed(N: number, vs: number, x: number): number {
  return gammaP(N, N * x) - gammaP(N, N * (x - vs));
}

export function gammaPeak(N: number): GammaPeak {
  const at = (N - 1) / N;
  const height = gammaPdf(N, at);
  const [half, turn, five, ten] = [0.5, Math.exp(-0.5), 0.05, 0.1].map((share) => gammaCrossing(N, share * height));
  const tangentBase = (4 * Math.sqrt(N - 1)) / N;
  return {
    at,
    height,
    half,
    turn,
    five,
    ten,
    tangentBase,
    tailing: tailingOf(five, at),
    asymmetry: asymmetryOf(ten, at),
    platesHalf: platesFromHalfWidth(at, half.width),
    platesBase: platesFromBaseWidth(at, tangentBase),
    platesTurn: platesFromTurnWidth(at, turn.width),
    skew: 2 / Math.sqrt(N),
    excess: 6 / N,
  };
}

/** Impulse through N plates in steps that move p = courant/(1+k) of each plate on: amount leaving in a step, and until its end. */
export function discreteTransfer(N: number, k: number, courant: number, step: number): { readonly inStep: number; readonly cumulative: number } {
  const p = courant / (1 + k);
  const inStep = (n: number): number => binomial(n - 1, N - 1) * p ** N * (1 - p) ** (n - N);
  let cumulative = 0;
  for (let n = N; n <= step; n++) cumulative += inStep(n);
  return { inStep: step < N ? 0 : inStep(step), cumulative };
}

/** Share in plate r (first is 0) after n transfers of all the liquid. */
export function craigShare(k: number, n: number, r: number): number {
  const p = 1 / (1 + k);
  return binomial(n, r) * p ** r * (1 - p) ** (n - r);
}

/** Plates that a first-order explicit step shows instead of N. */
export function platesOfExplicitStep(N: number, k: number, courant: number): number {
  return N / (1 - courant / (1 + k));
}

/** Volume (in hold-up volumes) at which as much of 1 is still to come as of 2 has already left. */
export function equalImpurityCut(N: number, k1: number, k2: number): { readonly volume: number; readonly impurity: number } {
  const excess = (v: number): number => gammaP(N, (N * v) / (1 + k2)) - gammaQ(N, (N * v) / (1 + k1));
  const volume = bisect(excess, 1 + k1, 1 + k2);
  return { volume, impurity: gammaP(N, (N * volume) / (1 + k2)) };
}

export function slowPlatesTransform({ N, t0, k, kL }: SlowPlates): Transform {
  return (s) => {
    const retained: Complex = add([1, 0], div([k * kL, 0], add(s, [kL, 0])));
    const perPlate = add([1, 0], scale([s[0] * retained[0] - s[1] * retained[1], s[0] * retained[1] + s[1] * retained[0]], t0 / N));
    return exp(scale(log(perPlate), -N));
  };
}

/** Effluent of an impulse (1/time) through plates with slow uptake, by numerical inversion. */
export function slowPlatesPdf(plates: SlowPlates, t: number): number {
  return invert(slowPlatesTransform(plates), t);
}

export function slowPlatesCdf(plates: SlowPlates, t: number): number {
  return invertIntegral(slowPlatesTransform(plates), t);
}

/** From ln G = -N ln(1 + (t0/N) g), g = s(1+k) - s² k/kL + s³ k/kL² (derived). */
export function slowPlatesCumulants({ N, t0, k, kL }: SlowPlates): Cumulants {
  const tau = t0 / N;
  const [a, b, c] = [tau * (1 + k), (tau * k) / kL, (tau * k) / kL ** 2];
  return { mean: N * a, variance: N * (a * a + 2 * b), third: 6 * N * (a ** 3 / 3 + a * b + c) };
}

function gammaCrossing(N: number, level: number): Crossing {
  const at = (N - 1) / N;
  const excess = (x: number): number => gammaPdf(N, x) - level;
  const front = bisect(excess, 0, at);
  const rear = bisect(excess, at, at + 20 / Math.sqrt(N));
  return { front, rear, width: rear - front };
}

function bisect(f: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  const rising = f(high) > f(low);
  for (let pass = 0; pass < 200 && high - low > 1e-16 * high; pass++) {
    const middle = (low + high) / 2;
    if (f(middle) > 0 === rising) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
