// Movement of the glass: turns that settle and drops that fall. Plain functions of time, so any frame rate gives the same.

export interface Turning {
  readonly at: number;
  readonly speed: number;
}

/** 1/s: a turn of the glass settles in about a third of a second. */
const STIFFNESS = 14;
/** Degrees, degrees per second, below which a turn is done. */
const SETTLED = 0.05;
/** Drops above this rate are a stream: nothing may blink at 3 Hz or more (WCAG 2.2, 2.3.1 allows three flashes a second). */
export const STREAM_HZ = 2.5;
/** Seconds of one fall from tip to receiver, as drawn. */
export const FALL_S = 0.28;

/** Critically damped approach to a target, exact for any time step (closed form of x'' + 2wx' + w²x = 0). */
export function approach({ at, speed }: Turning, target: number, seconds: number): Turning {
  const away = at - target;
  const pull = speed + STIFFNESS * away;
  const decay = Math.exp(-STIFFNESS * seconds);
  const next = { at: target + (away + pull * seconds) * decay, speed: (speed - STIFFNESS * pull * seconds) * decay };
  return Math.abs(next.at - target) < SETTLED && Math.abs(next.speed) < SETTLED ? { at: target, speed: 0 } : next;
}

/** Drops per minute of model time. */
export function dropRate(flowMlPerMin: number, drop_mL: number): number {
  return flowMlPerMin / drop_mL;
}

/** Drops per second on screen. */
export function dropsPerSecond(flowMlPerMin: number, drop_mL: number, speed: number): number {
  return (dropRate(flowMlPerMin, drop_mL) * speed) / 60;
}

/** Volume that hangs at the tip as a share of a drop: what has left since the last one fell. */
export function hangingShare(delivered_mL: number, drop_mL: number): number {
  const drops = delivered_mL / drop_mL;
  return drops - Math.floor(drops);
}

/** How far a drop has fallen, 0 to 1; uniformly accelerated. */
export function fallen(seconds: number): number {
  return Math.min(1, (seconds / FALL_S) ** 2);
}
