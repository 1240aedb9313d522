import type { Column } from '../column/column.ts';
import { EDGE_SHARE } from '../column/measure.ts';
import type { IonId } from '../terms/types.ts';
import { ln, square } from '../math/elementary.ts';

// Shapes as numbers: how far a band leans, how its peak tails, whether its front comes twice. A number is a symptom, not a cause.

/** Cells of a bed or of a moment of it: arrays over component, lane and plate. */
export interface Cells {
  readonly pore: ArrayLike<number>;
  readonly sorbed: ArrayLike<number>;
  readonly gas: ArrayLike<number>;
}

export interface Lean {
  /** cm between the leading edges of the sides that are furthest ahead and furthest behind; 0 is level. */
  readonly lean_cm: number;
  /** Degrees round the bed of the side that is ahead. */
  readonly ahead_deg: number;
  /** cm by which the core is ahead of the mean of the sides; negative if behind. */
  readonly core_cm: number;
  /** Deepest leading edge over the mean one, all lanes by area; 1 is level. */
  readonly leadingEdgeRatio: number;
}

/** How a band stands in the bed. Undefined for a bed of one lane, and while the bed holds none of the ion. */
export function leanOf(cells: Cells, column: Column, ion: IonId): Lean | undefined {
  const { lanes, scenario, dz, cellVolume, porosity } = column;
  const plates = scenario.values['bed.plates'];
  const k = column.ions.indexOf(ion) + 1;
  if (lanes.count < 2 || k === 0) return undefined;
  const held: number[] = [];
  const edges: number[] = [];
  for (let i = 0; i < lanes.count; i++) {
    const at = i * plates;
    const amount = (j: number): number => {
      const x = (k * lanes.count + i) * plates + j;
      return cellVolume[i] * (cells.sorbed[x] + cells.pore[x] * porosity * (1 - cells.gas[at + j]));
    };
    const profile = Float64Array.from({ length: plates }, (_, j) => amount(j));
    held.push(profile.reduce((sum, part) => sum + part, 0));
    edges.push(edgeOf(profile) * dz);
  }
  const most = Math.max(...held);
  if (!(most > 1e-12)) return undefined;
  const sides = edges.slice(1);
  const [deepest, highest] = [Math.max(...sides), Math.min(...sides)];
  const area = lanes.area.reduce((sum, part) => sum + part, 0);
  const mean = edges.reduce((sum, edge, i) => sum + edge * lanes.area[i], 0) / area;
  return {
    lean_cm: deepest - highest,
    ahead_deg: lanes.angleDeg[1 + sides.indexOf(deepest)],
    core_cm: edges[0] - sides.reduce((sum, edge) => sum + edge, 0) / sides.length,
    leadingEdgeRatio: mean > 0 ? Math.max(...edges) / mean : 1,
  };
}

/** Depth, in cells, above which all but a hundredth of a lane's ion lies. */
function edgeOf(profile: Float64Array): number {
  const total = profile.reduce((sum, part) => sum + part, 0);
  let beyond = 0;
  for (let j = profile.length - 1; j >= 0; j--) {
    if (beyond + profile[j] > EDGE_SHARE * total) return j + 1 - (EDGE_SHARE * total - beyond) / profile[j];
    beyond += profile[j];
  }
  return 0;
}

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

/** Maxima of dc/dV on the way up, each parted from the next by a dip. */
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
  const front = root(drop, 1e-9, top);
  const rear = root((x) => -drop(x), top, top + 50 / Math.sqrt(N));
  return (rear - front) / (2 * (top - front));
}

/** Zero of a rising function, by halving. */
function root(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let n = 0; n < 100; n++) {
    const middle = (a + b) / 2;
    if (f(middle) < 0) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}
