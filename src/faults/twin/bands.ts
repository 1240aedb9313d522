import {
  deliveredAtEnd,
  deliveredOf,
  type EffluentCurve,
  effluentCurve,
  framesApart,
  type Plan,
  type Solute,
  trackOf,
  trackOnRuler,
} from '../../../sim/history/index.ts';
import type { IonId } from '../../../sim/terms/types.ts';

// One ion of a run as curves over delivered volume: the edges of its band, and what leaves the tip.

/** Arrays of equal length, one point for each frame, as the ruler reads them; NaN where there is no band. */
export interface BandCurve {
  readonly delivered_mL: readonly number[];
  readonly leading_cm: readonly number[];
  readonly trailing_cm: readonly number[];
}

/** Points over the whole run; more cannot be told apart on a page. */
const POINTS = 500;

export function bandCurve(plan: Plan, ion: IonId): BandCurve {
  const { leading_cm, trailing_cm } = trackOnRuler(plan, trackOf(plan, ion));
  const frames = framesApart(plan, deliveredAtEnd(plan) / POINTS);
  return {
    delivered_mL: frames.map((frame) => deliveredOf(plan, frame)),
    leading_cm: frames.map((frame) => leading_cm[frame]),
    trailing_cm: frames.map((frame) => trailing_cm[frame]),
  };
}

/** What leaves the tip, mol/L. */
export function leavingCurve(plan: Plan, solute: Solute): EffluentCurve {
  return effluentCurve(plan, solute, framesApart(plan, deliveredAtEnd(plan) / POINTS));
}

/** The part of a curve up to a volume, ending at that volume. */
export function curveUntil(curve: EffluentCurve, end: number): EffluentCurve {
  const { xs, ys } = curve;
  const after = xs.findIndex((x) => x > end);
  if (after < 0) return curve;
  return { xs: [...xs.slice(0, after), end], ys: [...ys.slice(0, after), valueAt(curve, end)] };
}

/** A curve read at a volume, straight between its points; 0 outside it. */
export function valueAt({ xs, ys }: EffluentCurve, x: number): number {
  const after = xs.findIndex((value) => value >= x);
  if (after < 0) return 0;
  if (after === 0) return xs[0] === x ? ys[0] : 0;
  const span = xs[after] - xs[after - 1];
  return span > 0 ? ys[after - 1] + ((x - xs[after - 1]) / span) * (ys[after] - ys[after - 1]) : ys[after];
}
