// What is read off a sampled effluent curve: moments, widths and the plate numbers they report.
// USP 28 <621> glossary and the 2023 note on <621> and Ph. Eur. 2.2.46 (read); IUPAC 1993, Ettre, Pure Appl. Chem. 65, 819 (terms recalled).

export interface Moments {
  readonly area: number;
  readonly mean: number;
  readonly variance: number;
  readonly skew: number;
}

export interface Crossing {
  readonly front: number;
  readonly rear: number;
  readonly width: number;
}

/** 8 ln 2, usually printed 5.545. */
const HALF_WIDTH = 8 * Math.LN2;

/** Moments of a curve by the trapezoidal rule. */
export function momentsOf(at: ArrayLike<number>, value: ArrayLike<number>): Moments {
  const area = trapezoid(at, (i) => value[i]);
  const mean = trapezoid(at, (i) => at[i] * value[i]) / area;
  const central = (power: number): number => trapezoid(at, (i) => (at[i] - mean) ** power * value[i]) / area;
  const variance = central(2);
  return { area, mean, variance, skew: central(3) / variance ** 1.5 };
}

/** Place and height of the maximum, by a parabola through the highest sample and its neighbours (equally spaced). */
export function apexOf(at: ArrayLike<number>, value: ArrayLike<number>): { readonly at: number; readonly height: number } {
  let top = 0;
  for (let i = 1; i < value.length; i++) if (value[i] > value[top]) top = i;
  if (top === 0 || top === value.length - 1) return { at: at[top], height: value[top] };
  const [left, middle, right] = [value[top - 1], value[top], value[top + 1]];
  const offset = (left - right) / (2 * (left - 2 * middle + right));
  return { at: at[top] + offset * (at[top + 1] - at[top]), height: middle - ((left - right) * offset) / 4 };
}

/** Where the curve crosses a share of its height, straight between samples. */
export function crossingOf(at: ArrayLike<number>, value: ArrayLike<number>, share: number): Crossing {
  const level = share * apexOf(at, value).height;
  let [first, last] = [0, value.length - 1];
  while (first < value.length && value[first] < level) first++;
  while (last > first && value[last] < level) last--;
  const front = first === 0 ? at[0] : between(at, value, first - 1, level);
  const rear = last === value.length - 1 ? at[last] : between(at, value, last, level);
  return { front, rear, width: rear - front };
}

/** Place where a rising or falling front first passes a level. */
export function passageOf(at: ArrayLike<number>, value: ArrayLike<number>, level: number): number {
  for (let i = 1; i < value.length; i++)
    if ((value[i - 1] - level) * (value[i] - level) <= 0 && value[i] !== value[i - 1]) return between(at, value, i - 1, level);
  throw new Error(`curve: expected to pass ${level}, received values from ${value[0]} to ${value[value.length - 1]}`);
}

/** T = w(5 %)/(2 f), f the front half-width at 5 % of the height (USP tailing factor, Ph. Eur. symmetry factor). */
export function tailingOf({ front, width }: Crossing, apex: number): number {
  return width / (2 * (apex - front));
}

/** b/a at a share of the height, usually 10 % (recalled). */
export function asymmetryOf({ front, rear }: Crossing, apex: number): number {
  return (rear - apex) / (apex - front);
}

export function platesFromHalfWidth(retention: number, width: number): number {
  return HALF_WIDTH * (retention / width) ** 2;
}

export function platesFromBaseWidth(retention: number, width: number): number {
  return 16 * (retention / width) ** 2;
}

/** Width at 60.7 % of the height, where a Gaussian turns. */
export function platesFromTurnWidth(retention: number, width: number): number {
  return 4 * (retention / width) ** 2;
}

export function platesFromMoments({ mean, variance }: Pick<Moments, 'mean' | 'variance'>): number {
  return (mean * mean) / variance;
}

export function resolutionFromBase(t1: number, w1: number, t2: number, w2: number): number {
  return (2 * (t2 - t1)) / (w1 + w2);
}

/** Purnell 1960 (recalled): (sqrt N/4)((a-1)/a)(k2/(1+k2)). */
export function resolutionFromPlates(N: number, alpha: number, k2: number): number {
  return (Math.sqrt(N) / 4) * ((alpha - 1) / alpha) * (k2 / (1 + k2));
}

function trapezoid(at: ArrayLike<number>, f: (i: number) => number): number {
  let sum = 0;
  for (let i = 1; i < at.length; i++) sum += ((at[i] - at[i - 1]) * (f(i) + f(i - 1))) / 2;
  return sum;
}

function between(at: ArrayLike<number>, value: ArrayLike<number>, i: number, level: number): number {
  return at[i] + ((level - value[i]) / (value[i + 1] - value[i])) * (at[i + 1] - at[i]);
}
