import { bandIn } from '../../../sim/column/measure.ts';
import { FRAME } from '../../../sim/history/record.ts';
import type { IonId } from '../../../sim/terms/types.ts';
import type { Plan } from '../../../sim/history/plan.ts';

// One ion of a run as curves over delivered volume: the edges of its band, and what leaves the tip.

/** Arrays of equal length, a point a frame; NaN where there is no band. */
export interface BandCurve {
  readonly delivered_mL: readonly number[];
  readonly leading_cm: readonly number[];
  readonly trailing_cm: readonly number[];
}

/** Shares of the largest amount ever on the bed below which there is no band worth drawing. */
const SHARE_LEAST = 0.04;
/** Points over the whole run; more cannot be told apart on a page. */
const POINTS = 500;

export function bandCurve(plan: Plan, ion: IonId, length_cm: number): BandCurve {
  const k = plan.ions.indexOf(ion) + 1;
  const frames = thinned(plan);
  const bands = frames.map((frame) => {
    const at = (frame * plan.components + k) * plan.plates;
    return bandIn(plan.profiles.subarray(at, at + plan.plates), length_cm / plan.plates);
  });
  const most = bands.reduce((high, band) => Math.max(high, band?.amount_mmol ?? 0), 0);
  const shown = bands.map((band) => (band && band.amount_mmol >= SHARE_LEAST * most ? band : undefined));
  return {
    delivered_mL: frames.map((frame) => plan.rows[frame * plan.stride + FRAME.delivered]),
    leading_cm: shown.map((band) => band?.leading_cm ?? Number.NaN),
    trailing_cm: shown.map((band) => band?.trailing_cm ?? Number.NaN),
  };
}

/** What leaves the tip, mol/L; component 0 is HCl. */
export function effluentCurve(plan: Plan, component: number): { readonly xs: readonly number[]; readonly ys: readonly number[] } {
  const frames = thinned(plan);
  return {
    xs: frames.map((frame) => plan.rows[frame * plan.stride + FRAME.delivered]),
    ys: frames.map((frame) => plan.rows[frame * plan.stride + FRAME.parts + component]),
  };
}

/** A curve read at a volume, straight between its points; 0 outside it. */
export function valueAt({ xs, ys }: { readonly xs: readonly number[]; readonly ys: readonly number[] }, x: number): number {
  const after = xs.findIndex((value) => value >= x);
  if (after < 0) return 0;
  if (after === 0) return xs[0] === x ? ys[0] : 0;
  const span = xs[after] - xs[after - 1];
  return span > 0 ? ys[after - 1] + ((x - xs[after - 1]) / span) * (ys[after] - ys[after - 1]) : ys[after];
}

/** Frames at least a POINTS-th of the run apart in volume. */
function thinned({ rows, stride, count }: Plan): number[] {
  const end = rows[(count - 1) * stride + FRAME.delivered];
  const frames: number[] = [];
  let next = Number.NEGATIVE_INFINITY;
  for (let frame = 0; frame < count; frame++) {
    const delivered = rows[frame * stride + FRAME.delivered];
    if (delivered < next) continue;
    frames.push(frame);
    next = delivered + end / POINTS;
  }
  return frames;
}
