import { ln } from '../math/elementary.ts';
import { square } from '../math/square.ts';
import { rootOf } from '../math/root.ts';

// The shape of a peak in numbers: how it tails, whether its front comes twice. A number is a symptom, not a cause.

export interface PeakShape {
  /** mL at the maximum. */
  readonly volume_mL: number;
  readonly height: number;
  /** mL at half height. */
  readonly width_mL: number;
  /** 5.545 (V/w)², as for a Gaussian peak. */
  readonly plates: number;
  /** Undefined while a side has not fallen to the height it is read at. USP tailing, w(5 %) over twice the front half: 1 is symmetric, 0.8 to 1.8 is accepted (USP <621>, 2022, read). */
  readonly tailing: number | undefined;
  /** Rear over front half at 10 % (recalled). */
  readonly asymmetry: number | undefined;
  /** Tailing of a gamma peak of as many plates: what even a perfect bed shows. */
  readonly gammaTailing: number;
  /** mL of the steepest places of the rise; two or more are a double front. */
  readonly fronts_mL: readonly number[];
}

/** Slope of a second front over that of the steepest, and how deep the dip between must be, to count it. */
const FRONT_LEAST = 0.15;
const DIP_LEAST = 0.3;

/** Shape of the highest peak of an effluent curve. Undefined if it has none that falls to half on both sides. */
export function peakShape(volume: ArrayLike<number>, concentration: ArrayLike<number>): PeakShape | undefined {
  let top = 0;
  for (let i = 1; i < volume.length; i++) if (concentration[i] > concentration[top]) top = i;
  const height = concentration[top];
  if (!(height > 0)) return undefined;
  const at = (share: number): readonly [number, number] => [
    crossing(volume, concentration, top, -1, share * height),
    crossing(volume, concentration, top, 1, share * height),
  ];
  const [five, ten, half] = [at(0.05), at(0.1), at(0.5)];
  if (half.some(Number.isNaN)) return undefined;
  const V = volume[top];
  const plates = 5.545 * square(V / (half[1] - half[0]));
  return {
    volume_mL: V,
    height,
    width_mL: half[1] - half[0],
    plates,
    tailing: five.some(Number.isNaN) ? undefined : (five[1] - five[0]) / (2 * (V - five[0])),
    asymmetry: ten.some(Number.isNaN) ? undefined : (ten[1] - V) / (V - ten[0]),
    gammaTailing: gammaTailing(plates + 1),
    fronts_mL: frontsOf(volume, concentration, top),
  };
}

/** Volume at which the curve falls through a value, going from the top to one side. */
function crossing(volume: ArrayLike<number>, c: ArrayLike<number>, top: number, side: 1 | -1, value: number): number {
  for (let i = top; i + side >= 0 && i + side < volume.length; i += side) {
    if (c[i + side] > value) continue;
    const t = (c[i] - value) / (c[i] - c[i + side]);
    return volume[i] + t * (volume[i + side] - volume[i]);
  }
  return Number.NaN;
}

/** Maxima of dc/dV on the way up, each separated from the next by a dip. */
function frontsOf(volume: ArrayLike<number>, c: ArrayLike<number>, top: number): number[] {
  const places: { readonly V: number; readonly slope: number }[] = [];
  for (let i = 1; i <= top; i++) {
    const step = volume[i] - volume[i - 1];
    if (step > 0) places.push({ V: (volume[i] + volume[i - 1]) / 2, slope: (c[i] - c[i - 1]) / step });
  }
  const steepest = places.reduce((most, { slope }) => Math.max(most, slope), 0);
  const fronts: { V: number; slope: number }[] = [];
  let dip = Number.POSITIVE_INFINITY;
  for (const { V, slope } of places) {
    dip = Math.min(dip, slope);
    const last = fronts.at(-1);
    if (slope < FRONT_LEAST * steepest) continue;
    if (!last || dip < (1 - DIP_LEAST) * Math.min(last.slope, slope)) {
      fronts.push({ V, slope });
      dip = slope;
    } else if (slope > last.slope) {
      last.V = V;
      last.slope = slope;
      dip = slope;
    }
  }
  return fronts.map(({ V }) => V);
}

/** USP tailing of the peak x^(N-1) e^(-N x) of N plates, from its own 5 % points. */
export function gammaTailing(N: number): number {
  if (!(N > 1)) return Number.NaN;
  const top = (N - 1) / N;
  const drop = (x: number): number => (N - 1) * ln(x / top) - N * (x - top) - ln(0.05);
  const front = rootOf(drop, 1e-9, top);
  const rear = rootOf((x) => -drop(x), top, top + 50 / Math.sqrt(N));
  return (rear - front) / (2 * (top - front));
}
