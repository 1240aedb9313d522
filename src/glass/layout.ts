import type { Parameters } from '../../sim/terms/types.ts';

// Where everything of the glass stands, px from the top left of the drawing, looked at level.

export interface Room {
  readonly width: number;
  readonly height: number;
  /** Where the top and bottom of the bed must appear, px from the top. */
  readonly bedTop: number;
  readonly bedBottom: number;
}

export interface Layout extends Room {
  readonly centre: number;
  /** Inner radius of the tube as drawn, and how many times too wide that is. */
  readonly radius: number;
  readonly widening: number;
  readonly pxPerCm: number;
  readonly rim: number;
  /** y of a liquid surface so many cm above the bed. */
  readonly above: (height_cm: number) => number;
  /** Whether heights above the bed are drawn ever smaller, so that the whole tube fits. */
  readonly shrinks: boolean;
  readonly support: number;
  readonly outletRadius: number;
  readonly outletTop: number;
  readonly clamp: number;
  readonly tip: number;
  readonly receiver: VesselPlace;
}

/** A vessel by its middle, base and size, px. */
export interface VesselPlace {
  readonly x: number;
  readonly base: number;
  readonly height: number;
  readonly radius: number;
}

/** Thickness of the bed support, px. */
const SUPPORT = 5;
/** Room kept above the rim for its far edge, px. */
const ABOVE_RIM = 12;
/** Least room for the tube above the bed, for the bed, and for what is below it, px. */
const LEAST_ABOVE = 16;
const LEAST_BED = 40;
const LEAST_BELOW = 130;
/** Name and volume under a vessel, px. */
const LABEL = 40;
/** Width of a beaker over its height, near that of a low-form 100 mL beaker (50 by 70 mm, recalled), wider to show its colour. */
export const BEAKER_WIDTH = 0.8;
/** Height of the nominal volume over that of the beaker; common practice, no source. */
export const BEAKER_FULL = 0.78;
/** Size of a vessel standing aside over the one under the tip. */
const ASIDE = 0.6;
/** Least width of a vessel standing aside with its name, px. */
export const ASIDE_WIDTH = 58;
/** Half the width kept for the receiver under the tip and its name, px: the widest that leaves room at the sides. */
const UNDER_HALF = [52, 42, 30];

export function layoutOf(wanted: Room, values: Parameters): Layout {
  const room = roomFor(wanted);
  const { width, height, bedTop, bedBottom } = room;
  const pxPerCm = (bedBottom - bedTop) / values['bed.length_cm'];
  const true_px = (values['column.bore_cm'] / 2) * pxPerCm;
  const radius = Math.min(Math.max(true_px, 0.115 * (bedBottom - bedTop), 24), 0.2 * width);
  const space_cm = Math.max(0.1, values['column.tube_cm'] - values['bed.length_cm']);
  const room_px = Math.max(8, bedTop - ABOVE_RIM);
  const shrinks = space_cm * pxPerCm > room_px;
  const above = shrinks ? shrinking(bedTop, pxPerCm, space_cm, room_px) : (cm: number) => bedTop - cm * pxPerCm;
  return {
    ...room,
    centre: width / 2,
    radius,
    widening: radius / true_px,
    pxPerCm,
    shrinks,
    above,
    rim: above(space_cm),
    ...below(bedBottom, height, width, radius),
  };
}

/** The room as wanted, or the bed where it fits best: while its place is not known, or where it would leave no room below. */
function roomFor(wanted: Room): Room {
  const { height, bedTop, bedBottom } = wanted;
  if (bedTop >= LEAST_ABOVE && bedBottom - bedTop >= LEAST_BED && bedBottom <= height - LEAST_BELOW) return wanted;
  return { ...wanted, bedTop: 0.22 * height, bedBottom: 0.62 * height };
}

/** Depth in the bed (cm) at a height of the drawing, looked at level. */
export function depthAt(layout: Layout, y: number): number {
  return (y - layout.bedTop) / layout.pxPerCm;
}

/** Half the width that the receiver under the tip and its name take, px. */
export function underHalf({ receiver, width }: Layout): number {
  const fits = UNDER_HALF.find((half) => width / 2 - half >= ASIDE_WIDTH) ?? UNDER_HALF[UNDER_HALF.length - 1];
  return Math.max(receiver.radius + 4, fits);
}

/** Depth (cm) on the near side of the bed at a place of the drawing, seen from above by so many degrees; undefined beside the bed. */
export function depthUnder(layout: Layout, x: number, y: number, downDeg: number): number | undefined {
  const { bedTop, bedBottom, centre, radius } = layout;
  const across = x - centre;
  if (Math.abs(across) > radius) return undefined;
  const down = (downDeg * Math.PI) / 180;
  const middle = (bedTop + bedBottom) / 2;
  const level = middle + (y - middle - Math.sqrt(radius ** 2 - across ** 2) * Math.sin(down)) / Math.cos(down);
  return level < bedTop || level > bedBottom ? undefined : depthAt(layout, level);
}

/** Places for vessels that stand aside, nearest to the tip first, alternating left and right. */
export function asidePlaces(layout: Layout, count: number): VesselPlace[] {
  const { receiver, width } = layout;
  const height = receiver.height * ASIDE;
  const radius = receiver.radius * ASIDE;
  const step = Math.max(ASIDE_WIDTH, 2 * radius + 12);
  const half = underHalf(layout);
  const perSide = Math.max(0, Math.floor((width / 2 - half) / step));
  return Array.from({ length: Math.min(count, 2 * perSide) }, (_, i) => {
    const away = half + step * (Math.floor(i / 2) + 0.5);
    return { x: layout.centre + (i % 2 === 0 ? -away : away), base: receiver.base, height, radius };
  });
}

/**
 * Heights above the bed on a scale that is true at the bed top and shrinks like a logarithm, so that a millimetre above the
 * bed shows while the rim of a long tube is still on the drawing.
 */
function shrinking(bedTop: number, pxPerCm: number, space_cm: number, room_px: number): (cm: number) => number {
  const rise = (bend: number, cm: number): number => bend * Math.log1p((pxPerCm * cm) / bend);
  let low = 1e-3;
  let high = 1e5;
  for (let i = 0; i < 60; i++) {
    const middle = Math.sqrt(low * high);
    if (rise(middle, space_cm) < room_px) low = middle;
    else high = middle;
  }
  return (cm) => bedTop - rise(low, Math.max(0, cm));
}

/** Support, outlet, clamp, tip and receiver share what is left under the bed. */
function below(bedBottom: number, height: number, width: number, radius: number) {
  const rest = height - bedBottom;
  const free = rest - LABEL - SUPPORT;
  const outlet = Math.min(0.34 * free, 110);
  const gap = Math.min(0.18 * free, 56);
  const beaker = Math.min(free - outlet - gap, 130, (0.5 * width) / BEAKER_WIDTH);
  const outletTop = bedBottom + SUPPORT;
  return {
    support: SUPPORT,
    outletRadius: Math.max(3, 0.11 * radius),
    outletTop,
    clamp: outletTop + 0.62 * outlet,
    tip: outletTop + outlet,
    receiver: { x: width / 2, base: height - LABEL, height: beaker, radius: (beaker * BEAKER_WIDTH) / 2 },
  };
}
