import {
  type EffluentCurve,
  deliveredAtEnd,
  deliveredBy,
  deliveredOf,
  effluentCurve,
  type FractionTargets,
  framesApart,
  keptOf,
  type Plan,
  type Span,
  trackOf,
  trackOnRuler,
} from '../../../sim/history/index.ts';
import type { IonId } from '../../../sim/terms/types.ts';

// What a run looked like, in a few curves over the delivered volume: where its bands were, what left, which part was kept.

/** The band of one ion: depths of its edges on the ruler as shares of the bed as packed; NaN where there is none. */
export interface PicturedBand {
  readonly ion: IonId;
  readonly xs: readonly number[];
  readonly leading: readonly number[];
  readonly trailing: readonly number[];
}

export interface RunPicture {
  readonly bands: readonly PicturedBand[];
  readonly curves: readonly (EffluentCurve & { readonly ion: IonId })[];
  readonly kept: Span | undefined;
  /** Delivered by the time to which the run was played. */
  readonly end_mL: number;
}

/** Points over a run; more cannot be told apart in a small picture. */
const POINTS = 120;

/** Of the run as far as it was played; `open` without what leaves the tip, for a run that is still to be judged by eye. */
export function runPicture(plan: Plan, targets: FractionTargets, now_min: number, open = true): RunPicture {
  const end_mL = Math.min(deliveredBy(plan, now_min), deliveredAtEnd(plan));
  const frames = framesApart(plan, deliveredAtEnd(plan) / POINTS).filter((frame) => deliveredOf(plan, frame) <= end_mL);
  const kept = keptOf(plan, targets);
  return {
    bands: plan.ions.map((ion) => bandOf(plan, ion, frames)),
    curves: open ? plan.ions.map((ion) => ({ ion, ...effluentCurve(plan, ion, frames) })) : [],
    kept: open && kept && kept.from_mL < end_mL ? { ...kept, to_mL: Math.min(kept.to_mL, end_mL) } : undefined,
    end_mL,
  };
}

function bandOf(plan: Plan, ion: IonId, frames: readonly number[]): PicturedBand {
  const { leading_cm, trailing_cm } = trackOnRuler(plan, trackOf(plan, ion));
  return {
    ion,
    xs: frames.map((frame) => deliveredOf(plan, frame)),
    leading: frames.map((frame) => leading_cm[frame] / plan.length_cm),
    trailing: frames.map((frame) => trailing_cm[frame] / plan.length_cm),
  };
}
