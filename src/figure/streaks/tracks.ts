import { bandIn } from '../../../sim/column/measure.ts';
import { FRAME } from '../../../sim/history/record.ts';
import type { IonId } from '../../../sim/terms/types.ts';
import type { Plan } from '../../../sim/history/plan.ts';

// The bands as curves: edges and middle of each ion against delivered volume, and how fast it moves.

export interface Track {
  readonly ion: IonId;
  /** Per frame. Delivered volume, mL. */
  readonly delivered: Float64Array;
  /** On the bed, as a share of the most that was ever on it. */
  readonly share: Float32Array;
  /** Depths as shares of the bed; NaN without a band. */
  readonly leading: Float32Array;
  readonly trailing: Float32Array;
  readonly middle: Float32Array;
}

/** How a band moves over a stretch of the run. */
export interface Motion {
  readonly ion: IonId;
  readonly kind: 'runs' | 'crawls' | 'stays' | 'falls';
  /** Frame in the middle of the stretch. */
  readonly frame: number;
  /** mL. */
  readonly span: number;
}

/** Less than this share on the bed has no band worth drawing. */
export const SHARE_LEAST = 0.04;
/** Share that must be on the bed for a band to be said to move. */
const SHARE_MOVING = 0.6;
/** Rate of travel over that of the liquid: at least this runs along with it, less than the other hardly moves. Choices. */
const RUNS_FROM = 0.3;
const STAYS_BELOW = 0.015;
/** Volume over which a rate is taken, mL as a share of the bed's hold-up volume. */
const RATE_OVER = 0.6;
/** Shortest stretch that gets a word, in hold-up volumes. */
const LEAST_SPAN = { runs: 0.3, crawls: 1, stays: 1 } as const;

export function tracksOf(plan: Plan): Track[] {
  const { rows, stride, count, plates, components, profiles } = plan;
  const delivered = new Float64Array(count);
  for (let frame = 0; frame < count; frame++) delivered[frame] = rows[frame * stride + FRAME.delivered];
  return plan.ions.map((ion, i) => {
    const track = {
      ion,
      delivered,
      share: new Float32Array(count),
      leading: new Float32Array(count),
      trailing: new Float32Array(count),
      middle: new Float32Array(count),
    };
    for (let frame = 0; frame < count; frame++) {
      const at = (frame * components + i + 1) * plates;
      // A cell counts as 1, so depths come in shares of the bed.
      const band = bandIn(profiles.subarray(at, at + plates), 1 / plates);
      track.share[frame] = band?.amount_mmol ?? 0;
      track.leading[frame] = band?.leading_cm ?? Number.NaN;
      track.trailing[frame] = band?.trailing_cm ?? Number.NaN;
      track.middle[frame] = band?.centroid_cm ?? Number.NaN;
    }
    const most = track.share.reduce((high, amount) => Math.max(high, amount), 0);
    if (most > 0) for (let frame = 0; frame < count; frame++) track.share[frame] /= most;
    return track;
  });
}

/** The longest stretch of each way of moving, for the labels beside the bands. */
export function motionsOf(plan: Plan, track: Track): Motion[] {
  const kinds = Array.from(track.share, (_, frame) => kindAt(plan, track, frame));
  const best = new Map<string, Motion>();
  let slow = false;
  for (let from = 0; from < kinds.length; ) {
    let to = from + 1;
    while (to < kinds.length && kinds[to] === kinds[from]) to++;
    const kind = kinds[from];
    const span = track.delivered[to - 1] - track.delivered[from];
    if (kind && span >= plan.results.bed.holdup_mL * LEAST_SPAN[kind]) {
      const named = kind === 'runs' && slow ? 'falls' : kind;
      if (span > (best.get(named)?.span ?? 0)) best.set(named, { ion: track.ion, kind: named, frame: (from + to - 1) >> 1, span });
      slow ||= kind !== 'runs';
    }
    from = to;
  }
  return [...best.values()];
}

function kindAt(plan: Plan, { delivered, middle, share }: Track, frame: number): 'runs' | 'crawls' | 'stays' | undefined {
  if (share[frame] < SHARE_MOVING) return undefined;
  const reach = plan.results.bed.holdup_mL * RATE_OVER;
  const before = Math.max(0, frame - 1);
  let ahead = frame;
  while (ahead + 1 < delivered.length && delivered[ahead] - delivered[before] < reach) ahead++;
  const passed = (delivered[ahead] - delivered[before]) / plan.results.bed.holdup_mL;
  if (share[ahead] < SHARE_MOVING / 2 || !(passed > 0)) return undefined;
  const rate = (middle[ahead] - middle[before]) / passed;
  return rate >= RUNS_FROM ? 'runs' : rate < STAYS_BELOW ? 'stays' : 'crawls';
}
