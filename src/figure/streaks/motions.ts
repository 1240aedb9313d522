import { deliveredOf, type Plan, type Track } from '../../../sim/history/index.ts';
import type { IonId } from '../../../sim/terms/types.ts';

// How fast each band moves, for the words beside it.

/** How a band moves over a stretch of the run. */
export interface Motion {
  readonly ion: IonId;
  readonly kind: 'runs' | 'crawls' | 'stays' | 'falls';
  /** First and last frame of the stretch; of a fast one they go on until the next. */
  readonly from: number;
  readonly to: number;
  /** mL. */
  readonly span: number;
}

/** Share that must be on the bed for a band to be said to move. */
const SHARE_MOVING = 0.6;
/** Rate of travel over that of the liquid: at least this runs along with it, less than the other hardly moves. Choices. */
const RUNS_FROM = 0.2;
const STAYS_BELOW = 0.015;
/** A band that loses more than this share of what was poured meanwhile does not stay, however little its middle moves. */
const LEAVES_FROM = 0.002;
/** Volume over which a rate is taken, mL as a share of the bed's hold-up volume. */
const RATE_OVER = 0.6;
/** Shortest stretch that gets a word, in hold-up volumes. */
const LEAST_SPAN = { runs: 0.3, crawls: 1, stays: 1 } as const;

/** The longest stretch of each way of moving, for the labels beside the bands. */
export function motionsOf(plan: Plan, track: Track): Motion[] {
  const best = new Map<string, Motion>();
  for (const motion of stretchesOf(plan, track)) if (motion.span > (best.get(motion.kind)?.span ?? 0)) best.set(motion.kind, motion);
  return [...best.values()];
}

/** Every stretch that gets a word. What comes after a fast one, until the next, is the same band leaving. */
function stretchesOf(plan: Plan, track: Track): Motion[] {
  const kinds = Array.from(track.share, (_, frame) => kindAt(plan, track, frame));
  const found: Motion[] = [];
  for (let from = 0; from < kinds.length; ) {
    let to = from + 1;
    while (to < kinds.length && kinds[to] === kinds[from]) to++;
    const kind = kinds[from];
    const span = deliveredOf(plan, to - 1) - deliveredOf(plan, from);
    if (kind && span >= plan.results.bed.holdup_mL * LEAST_SPAN[kind]) {
      const falls = kind === 'runs' && found.some((before) => before.kind === 'crawls' || before.kind === 'stays');
      found.push({ ion: track.ion, kind: falls ? 'falls' : kind, from, to: to - 1, span });
    }
    from = to;
  }
  const isFast = ({ kind }: Motion): boolean => kind === 'runs' || kind === 'falls';
  return found.map((motion, i) => (isFast(motion) ? { ...motion, to: (found[i + 1]?.from ?? kinds.length) - 1 } : motion));
}

function kindAt(plan: Plan, { middle_cm, leading_cm, share }: Track, frame: number): 'runs' | 'crawls' | 'stays' | undefined {
  if (share[frame] < SHARE_MOVING) return undefined;
  const reach = plan.results.bed.holdup_mL * RATE_OVER;
  const before = Math.max(0, frame - 1);
  let ahead = frame;
  while (ahead + 1 < plan.count && deliveredOf(plan, ahead) - deliveredOf(plan, before) < reach) ahead++;
  const passed = (deliveredOf(plan, ahead) - deliveredOf(plan, before)) / plan.results.bed.holdup_mL;
  if (share[ahead] < SHARE_MOVING / 2 || !(passed > 0)) return undefined;
  const rateOf = (depth_cm: Float32Array): number => (depth_cm[ahead] - depth_cm[before]) / plan.length_cm / passed;
  if (rateOf(middle_cm) >= RUNS_FROM) return 'runs';
  // The middle hardly moves either while a band stretches, or while what is ahead leaves the bed.
  const stays = rateOf(middle_cm) < STAYS_BELOW && rateOf(leading_cm) < STAYS_BELOW && share[before] - share[ahead] < LEAVES_FROM;
  return stays ? 'stays' : 'crawls';
}
