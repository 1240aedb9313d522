// Sides of the bed, by the angle at which a wall sector stands: 0 at the front, going round by the left, as lanes do.

export type Side = 'front' | 'left' | 'back' | 'right';

export const SIDES: readonly { readonly side: Side; readonly deg: number }[] = [
  { side: 'front', deg: 0 },
  { side: 'left', deg: 90 },
  { side: 'back', deg: 180 },
  { side: 'right', deg: 270 },
];

const EIGHTHS = ['front', 'front left', 'left', 'back left', 'back', 'back right', 'right', 'front right'] as const;

/** Name of the eighth of a turn in which an angle lies. */
export function sideName(deg: number): string {
  return EIGHTHS[Math.round(turned(deg) / 45) % 8];
}

/** The same angle, 0 to below 360. */
export function turned(deg: number): number {
  return ((deg % 360) + 360) % 360;
}

/** The angle equal to `deg` that is nearest to `from`, so that a turn goes the short way. */
export function nearestTurn(from: number, deg: number): number {
  return from + turned(deg - from + 180) - 180;
}

/** Wall sectors that are drawn round the bed, as lanes; a bed of one lane is the same all round. */
export function wallLanes(lanes: number): number[] {
  return lanes === 1 ? [0] : Array.from({ length: lanes - 1 }, (_, i) => i + 1);
}

/** Receivers that stand aside, those nearest in turn to the one under the tip first. */
export function asideOrder<Receiver extends { readonly slot: number }>(receivers: readonly Receiver[], under: number): Receiver[] {
  return receivers.filter(({ slot }) => slot !== under).sort((a, b) => Math.abs(a.slot - under) - Math.abs(b.slot - under));
}
