import { bandIn } from '../../sim/measure.ts';
import { FRAME } from '../../sim/record.ts';
import type { IonId } from '../../sim/types.ts';
import type { Plan } from '../store/planner.ts';
import { frameAt } from '../store/windows.ts';

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

/** A stretch of a run, and the depth at which the acid front meets the band. */
export interface FrontMeeting {
  readonly from_min: number;
  readonly to_min: number;
  readonly time_min: number;
  readonly delivered_mL: number;
  readonly depth_cm: number;
}

/** Hold-up volumes shown before and after the front meets the band. */
const BEFORE = 0.8;
const AFTER = 1;
/** Least share of an ion that must be on the bed for its band to be met. */
const BAND_LEAST = 0.3;

/** When the acid at the middle of an ion's band last falls through half of the strongest acid of the run; undefined if it never does. */
export function frontMeeting(plan: Plan, ion: IonId, length_cm: number): FrontMeeting | undefined {
  const half = strongest(plan) / 2;
  for (let frame = plan.count - 1; frame > 0; frame--) {
    const band = bandAt(plan, ion, frame - 1, length_cm);
    if (!band || band.share < BAND_LEAST) continue;
    if (acidInFrame(plan, frame - 1, band.middle_cm, length_cm) < half || acidInFrame(plan, frame, band.middle_cm, length_cm) >= half) continue;
    const delivered_mL = plan.rows[frame * plan.stride + FRAME.delivered];
    const holdup = plan.results.bed.holdup_mL;
    const timeAt = (volume: number): number => plan.rows[frameAt(plan, volume) * plan.stride + FRAME.time];
    return {
      from_min: timeAt(Math.max(0, delivered_mL - BEFORE * holdup)),
      to_min: timeAt(delivered_mL + AFTER * holdup),
      time_min: plan.rows[frame * plan.stride + FRAME.time],
      delivered_mL,
      depth_cm: band.middle_cm,
    };
  }
  return undefined;
}

/** Strongest acid in the bed at any time, mol/L. */
export function strongest(plan: Plan): number {
  let most = 0;
  for (let frame = 0; frame < plan.count; frame++) for (const c of profileOf(plan, 0, frame)) if (c > most) most = c;
  return most;
}
