import { bandIn } from '../../../sim/column/measure.ts';
import { FRAME } from '../../../sim/history/record.ts';
import type { IonId } from '../../../sim/terms/types.ts';
import type { Plan } from '../../../sim/history/plan.ts';
import { frameAt } from '../../../sim/history/windows.ts';

// What a run holds at a model time: the acid at a depth, the bands, and the moment when the acid front passes a band.

/** Less than this share of an ion makes no band. Our rule. */
const TRACE = 0.05;

/** The last frame at or before a model time. */
export function frameAtTime(plan: Plan, time_min: number): number {
  let low = 0;
  let high = plan.count - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (plan.rows[middle * plan.stride + FRAME.time] <= time_min) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** One component against depth, top first, in a frame. */
export function profileOf(plan: Plan, component: number, frame: number): Float32Array {
  const at = (frame * plan.components + component) * plan.plates;
  return plan.profiles.subarray(at, at + plan.plates);
}

/** HCl between the beads, mol/L, at a depth and model time; interpolated between frames and plates. */
export function acidAt(plan: Plan, time_min: number, depth_cm: number, length_cm: number): number {
  const frame = frameAtTime(plan, time_min);
  const here = acidInFrame(plan, frame, depth_cm, length_cm);
  if (frame + 1 >= plan.count) return here;
  const from = plan.rows[frame * plan.stride + FRAME.time];
  const to = plan.rows[(frame + 1) * plan.stride + FRAME.time];
  const share = to > from ? Math.min(1, Math.max(0, (time_min - from) / (to - from))) : 0;
  return here + share * (acidInFrame(plan, frame + 1, depth_cm, length_cm) - here);
}

function acidInFrame(plan: Plan, frame: number, depth_cm: number, length_cm: number): number {
  const profile = profileOf(plan, 0, frame);
  const place = Math.min(plan.plates - 1, Math.max(0, (depth_cm / length_cm) * plan.plates - 0.5));
  const above = Math.min(plan.plates - 2, Math.floor(place));
  if (above < 0) return profile[0] ?? 0;
  return profile[above] + (place - above) * (profile[above + 1] - profile[above]);
}

export interface BandPlace {
  readonly middle_cm: number;
  readonly leading_cm: number;
  readonly trailing_cm: number;
  /** Share of what was loaded in the whole run that is on the bed. */
  readonly share: number;
}

/** The band of an ion in a frame; undefined while only a trace of it is on the bed. */
export function bandAt(plan: Plan, ion: IonId, frame: number, length_cm: number): BandPlace | undefined {
  const band = bandIn(profileOf(plan, plan.ions.indexOf(ion) + 1, frame), length_cm / plan.plates);
  const loaded = plan.results.loaded[`${ion}_mmol`] ?? 0;
  if (!band || !(loaded > 0)) return undefined;
  const share = (band.amount_mmol * plan.results.bed.volume_mL) / plan.plates / loaded;
  return share < TRACE ? undefined : { middle_cm: band.centroid_cm, leading_cm: band.leading_cm, trailing_cm: band.trailing_cm, share };
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

/** Hold-up volumes shown, and looked at, before and after the front meets the band. */
const BEFORE = 0.8;
const AFTER = 1;
/** Least share of an ion that must be on the bed for its band to be met. */
const BAND_LEAST = 0.3;
/** D_v below which an ion runs with the liquid, so that a further fall changes nothing. Our rule. */
const RUNS = 0.3;
/** A front that lowers D_v by less than this factor lets nothing go. Our rule. */
const FALL_LEAST = 1.5;

const kept = new WeakMap<Plan, Map<IonId, FrontMeeting | undefined>>();

/** The front that lowers D_v at the middle of an ion's band most; undefined if none does by much. Kept for each run. */
export function frontMeeting(plan: Plan, ion: IonId, length_cm: number, D: (c: number) => number): FrontMeeting | undefined {
  const known = kept.get(plan) ?? new Map<IonId, FrontMeeting | undefined>();
  kept.set(plan, known);
  if (!known.has(ion)) known.set(ion, soughtMeeting(plan, ion, length_cm, D));
  return known.get(ion);
}

function soughtMeeting(plan: Plan, ion: IonId, length_cm: number, D: (c: number) => number): FrontMeeting | undefined {
  const holdup = plan.results.bed.holdup_mL;
  let best: FrontMeeting | undefined;
  let most = FALL_LEAST;
  for (let frame = 1; frame < plan.count; frame++) {
    const band = bandAt(plan, ion, frame, length_cm);
    if (!band || band.share < BAND_LEAST) continue;
    const delivered_mL = plan.rows[frame * plan.stride + FRAME.delivered];
    const [from, to] = [frameAt(plan, delivered_mL - BEFORE * holdup), frameAt(plan, delivered_mL + AFTER * holdup)];
    const [before_M, behind_M] = [from, to].map((each) => acidInFrame(plan, each, band.middle_cm, length_cm));
    const fall = Math.max(D(before_M), RUNS) / Math.max(D(behind_M), RUNS);
    // The whole front is in the window for a while; it meets the band when half of the change has come.
    const come = acidInFrame(plan, frame, band.middle_cm, length_cm) <= (before_M + behind_M) / 2;
    if (!come || fall <= most * (1 + 1e-6)) continue;
    most = fall;
    const timeOf = (each: number): number => plan.rows[each * plan.stride + FRAME.time];
    best = { from_min: timeOf(from), to_min: timeOf(to), time_min: timeOf(frame), delivered_mL, depth_cm: band.middle_cm, before_M, behind_M };
  }
  return best;
}

/** Strongest acid in the bed at any time, mol/L. */
export function strongest(plan: Plan): number {
  let most = 0;
  for (let frame = 0; frame < plan.count; frame++) for (const c of profileOf(plan, 0, frame)) if (c > most) most = c;
  return most;
}
