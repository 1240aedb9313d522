import { deliveredAtEnd, effluentCurve, framesApart, keptOf, type Plan, readingAt, type Span, targetsOf } from '../../../sim/history/index.ts';
import type { IonId, Scenario } from '../../../sim/terms/types.ts';
import type { Moment } from '../../store/threads/planner.ts';

// What a fault looks like, read off a run: how the band of the target lies in every lane of the bed, and what leaves the tip.

/** Band of one lane, on the ruler as shares of the bed as packed; undefined where the lane holds next to nothing. */
export type Strip = { readonly from: number; readonly to: number } | undefined;

export interface Picture {
  readonly target: IonId;
  readonly strips: readonly Strip[];
  readonly curves: readonly { readonly ion: IonId; readonly xs: readonly number[]; readonly ys: readonly number[] }[];
  readonly kept: Span | undefined;
  readonly end_mL: number;
}

/** Shares of what a lane holds above the upper and the lower edge of its band. */
const EDGES = [0.05, 0.95] as const;
/** A lane with less than this of an even share is empty. */
const EMPTY = 0.02;
const POINTS = 90;

/** The bed is shown at one moment; everything else comes from the whole run. */
export function pictureOf(scenario: Scenario, plan: Plan, moment: Pick<Moment, 'sorbed' | 'bed_cm'>, target: IonId): Picture {
  const frames = framesApart(plan, deliveredAtEnd(plan) / POINTS);
  return {
    target,
    strips: stripsOf(scenario, moment, target),
    curves: plan.ions.map((ion) => ({ ion, ...effluentCurve(plan, ion, frames) })),
    kept: keptOf(plan, targetsOf(scenario, target)),
    end_mL: deliveredAtEnd(plan),
  };
}

function stripsOf({ ions, values }: Scenario, { sorbed, bed_cm }: Pick<Moment, 'sorbed' | 'bed_cm'>, target: IonId): Strip[] {
  const length = values['bed.length_cm'];
  const shown = (share: number): number => readingAt(length, bed_cm, share * length) / length;
  const [lanes, plates] = [values['bed.lanes'], values['bed.plates']];
  const first = (ions.indexOf(target) + 1) * lanes * plates;
  const held = Array.from({ length: lanes }, (_, lane) => sorbed.subarray(first + lane * plates, first + (lane + 1) * plates));
  const sums = held.map((lane) => lane.reduce((sum, value) => sum + value, 0));
  const even = sums.reduce((sum, value) => sum + value, 0) / lanes;
  return held.map((lane, i) =>
    sums[i] > EMPTY * even ? { from: shown(depthOf(lane, EDGES[0] * sums[i])), to: shown(depthOf(lane, EDGES[1] * sums[i])) } : undefined,
  );
}

/** Share of the depth above which a lane holds this much, straight within a plate. */
function depthOf(lane: Float64Array, amount: number): number {
  let above = 0;
  for (let plate = 0; plate < lane.length; plate++) {
    if (above + lane[plate] >= amount && lane[plate] > 0) return (plate + (amount - above) / lane[plate]) / lane.length;
    above += lane[plate];
  }
  return 1;
}
