import type { IonId } from '../terms/types.ts';
import { bandAt } from './bands.ts';
import { pouredOf } from './effluent.ts';
import { deliveredOf, frameAt, timeOf } from './frames.ts';
import type { Plan } from './plan.ts';
import { inBedAt, profileOf } from './profiles.ts';

// Fronts of the acid in the bed, and where one meets a band.

/** Depth at which the acid first crosses a molarity, from the top, cm; NaN when the whole bed lies on one side. */
export function frontDepth(plan: Plan, frame: number, level_M: number): number {
  const profile = profileOf(plan, 'HCl', frame);
  for (let j = 1; j < profile.length; j++) {
    const [above, below] = [profile[j - 1], profile[j]];
    if (above > level_M !== below > level_M) return ((j - 0.5 + (level_M - above) / (below - above)) / profile.length) * plan.length_cm;
  }
  return Number.NaN;
}

/** A stretch of a run, and the depth at which an acid front meets the band. */
export interface FrontMeeting {
  readonly from_min: number;
  readonly to_min: number;
  readonly time_min: number;
  readonly delivered_mL: number;
  readonly depth_cm: number;
  /** HCl at that depth before and behind the front, mol/L. */
  readonly before_M: number;
  readonly behind_M: number;
}

/** Hold-up volumes looked at before and after the front meets the band. */
const BEFORE = 0.8;
const AFTER = 1;
/** Least share of an ion that must be on the bed for its band to be met. */
const MET_LEAST = 0.3;
/** D_v below which an ion runs with the liquid, so that a further fall changes nothing. Our rule. */
const RUNS = 0.3;
/** A front that lowers D_v by less than this factor lets nothing go. Our rule. */
const FALL_LEAST = 1.5;

/** The front that lowers D_v at the middle of an ion's band most; undefined if none does by much. `D` is D_v against HCl, mol/L. */
export function frontMeeting(plan: Plan, ion: IonId, D: (HCl_M: number) => number): FrontMeeting | undefined {
  const holdup = plan.results.bed.holdup_mL;
  const least = MET_LEAST * pouredOf(plan, ion);
  let best: FrontMeeting | undefined;
  let most = FALL_LEAST;
  for (let frame = 1; frame < plan.count; frame++) {
    const band = bandAt(plan, ion, frame);
    if (!band || band.amount_mmol < least) continue;
    const delivered_mL = deliveredOf(plan, frame);
    const [from, to] = [frameAt(plan, delivered_mL - BEFORE * holdup), frameAt(plan, delivered_mL + AFTER * holdup)];
    const [before_M, now_M, behind_M] = [from, frame, to].map((each) => inBedAt(plan, 'HCl', each, band.centroid_cm));
    const fall = Math.max(D(before_M), RUNS) / Math.max(D(behind_M), RUNS);
    // The whole front is in the window for a while; it meets the band when half of the change has come.
    if (now_M > (before_M + behind_M) / 2 || fall <= most * (1 + 1e-6)) continue;
    most = fall;
    best = {
      from_min: timeOf(plan, from),
      to_min: timeOf(plan, to),
      time_min: timeOf(plan, frame),
      delivered_mL,
      depth_cm: band.centroid_cm,
      before_M,
      behind_M,
    };
  }
  return best;
}
