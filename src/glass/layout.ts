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
  /** Thickness of the glass. */
  readonly wall: number;
  readonly pxPerCm: number;
  /** px for a cm of depth: depths are counted along the bed as it was packed, and it may be shorter or longer by now. */
  readonly pxPerDepth: number;
  /** y of the ruler's 0: where the bed stood when it was packed. */
  readonly zero: number;
  readonly rim: number;
  /** y of a liquid surface so many cm above the bed as it stands now. */
  readonly above: (height_cm: number) => number;
  /** The same above the ruler's 0. */
  readonly aboveZero: (height_cm: number) => number;
  /** y at which a tube too long for its place is cut; heights above it are drawn smaller. */
  readonly break: number | undefined;
  readonly outletRadius: number;
  readonly outletTop: number;
  readonly clamp: number;
  readonly tip: number;
  readonly receiver: VesselPlace;
  readonly ruler: { readonly left: number; readonly width: number; readonly top: number; readonly bottom: number };
}

/** A vessel by its middle, base and size, px. */
export interface VesselPlace {
  readonly x: number;
  readonly base: number;
  readonly height: number;
  readonly radius: number;
}

/** Thickness of the bed support, px. */
const SUPPORT = 6;
/** Room kept above the rim, px. */
const ABOVE_RIM = 10;
/** Least room for the tube above the bed, for the bed, and for what is below it, px. */
const LEAST_ABOVE = 16;
const LEAST_BED = 40;
const LEAST_BELOW = 130;
/** Least px of bed: an empty tube has none. */
const LEAST_DRAWN = 1;
/** Name and volume under a vessel, px; beside it in a panel as wide as this. */
const LABEL = 34;
const LABEL_BESIDE = 8;
export const WIDE = 320;
/** Room for a name beside a vessel, px. */
export const NAME_WIDTH = 62;
/** A tube narrower than this, px, is drawn up to so many times too wide. */
const SLIM_PX = 15;
const WIDER = 1.25;
/** Thickness of the glass over the inner radius: 0.9 mm of 4.5, common tubing, recalled. */
const WALL = 0.2;
/** Share of the room above the bed in which heights are true, where the tube is cut. */
const TRUE_SHARE = 0.68;
/** Half the height of the cut, px. */
const CUT = 6;
/** Width of a beaker over its height, near that of a low-form 100 mL beaker (50 by 70 mm, recalled), wider to show its colour. */
export const BEAKER_WIDTH = 0.8;
/** Height of the nominal volume over that of the beaker; common practice, no source. */
export const BEAKER_FULL = 0.78;
/** Size of a vessel standing aside over the one under the tip. */
const ASIDE = 0.72;
/** Least width of a vessel standing aside with its name, px. */
export const ASIDE_WIDTH = 48;
/** Half the width kept for the receiver under the tip and its name, px: the widest that leaves room at the sides. */
const UNDER_HALF = [52, 42, 30, 24];
/** A panel narrower than this, px, has its tube left of the middle, so that a beaker has room beside it. */
export const NARROW = 170;
/** From this width on the side that is seen and the level of the liquid have room beside each other, left of the tube, px. */
export const SIDE_NAMED = 255;
const NARROW_CENTRE = 0.38;
/** Widest beaker over the width of the panel. */
const BEAKER_SHARE = 0.36;
/** Ruler: px from the glass, px across in a wide panel and a narrow one, cm above the bed. */
const RULER_AWAY = 5;
const RULER_WIDTH = [28, 24] as const;
const RULER_ABOVE_CM = 2;

/** `bed_cm`: height of the resin now; the support stays where it is, so the top sinks as the bed shrinks. */
export function layoutOf(wanted: Room, values: Parameters, bed_cm = values['bed.length_cm']): Layout {
  const packed = roomFor(wanted);
  const { width, bedTop: zero, bedBottom } = packed;
  const length = values['bed.length_cm'];
  const pxPerCm = (bedBottom - zero) / length;
  const true_px = (values['column.bore_cm'] / 2) * pxPerCm;
  const radius = Math.min(Math.max(true_px, Math.min(SLIM_PX, WIDER * true_px)), 0.2 * width);
  const wall = Math.max(2.5, WALL * radius);
  const centre = width * (width < NARROW ? NARROW_CENTRE : 0.5);
  const { heightAt: aboveZero, ...up } = heights(zero, pxPerCm, Math.max(0.1, values['column.tube_cm'] - length));
  const grown = bed_cm - length;
  const bedTop = Math.min(aboveZero(grown), bedBottom - LEAST_DRAWN);
  return {
    ...packed,
    bedTop,
    zero,
    centre,
    radius,
    wall,
    widening: radius / true_px,
    pxPerCm,
    pxPerDepth: (bedBottom - bedTop) / length,
    ...up,
    aboveZero,
    above: (cm) => aboveZero(Math.max(0, cm) + grown),
    ...below(packed, centre, radius),
    ruler: {
      left: centre + radius + wall + RULER_AWAY,
      width: RULER_WIDTH[width < NARROW ? 1 : 0],
      top: Math.max(up.rim + 2, (up.break ?? 0) + 4, zero - (RULER_ABOVE_CM + 0.3) * pxPerCm),
      bottom: bedBottom + SUPPORT,
    },
  };
}

/** The room as wanted, or the bed where it fits best: while its place is not known, or where it would leave no room below. */
function roomFor(wanted: Room): Room {
  const { height, bedTop, bedBottom } = wanted;
  if (bedTop >= LEAST_ABOVE && bedBottom - bedTop >= LEAST_BED && bedBottom <= height - LEAST_BELOW) return wanted;
  return { ...wanted, bedTop: 0.22 * height, bedBottom: 0.62 * height };
}

/** Depth in the bed (cm) at a height of the drawing. */
export function depthAt(layout: Layout, y: number): number {
  return (y - layout.bedTop) / layout.pxPerDepth;
}

/** Height of the drawing at a depth in the bed (cm). */
export function depthY({ bedTop, pxPerDepth }: Layout, depth_cm: number): number {
  return bedTop + depth_cm * pxPerDepth;
}

/** Height of the drawing at a reading of the ruler (cm). */
export function readingY({ zero, pxPerCm }: Layout, read_cm: number): number {
  return zero + read_cm * pxPerCm;
}

/** Half the width that the receiver under the tip and its name take, px. */
export function underHalf({ receiver, width, centre }: Layout): number {
  const fits = UNDER_HALF.find((half) => width - centre - half >= ASIDE_WIDTH) ?? UNDER_HALF[UNDER_HALF.length - 1];
  return Math.max(receiver.radius + 4, fits);
}

/** Depth (cm) in the bed at a place of the drawing; undefined beside the bed. */
export function depthUnder(layout: Layout, x: number, y: number): number | undefined {
  const { bedTop, bedBottom, centre, radius } = layout;
  return Math.abs(x - centre) > radius || y < bedTop || y > bedBottom || bedBottom - bedTop <= LEAST_DRAWN ? undefined : depthAt(layout, y);
}

/** Places for vessels that stand aside, nearest to the tip first, right and left in turn while there is room. */
export function asidePlaces(layout: Layout, count: number): VesselPlace[] {
  const { receiver, width, centre } = layout;
  const height = receiver.height * ASIDE;
  const radius = receiver.radius * ASIDE;
  if (width >= WIDE) return besidePlaces(layout, height, radius).slice(0, count);
  const step = Math.max(ASIDE_WIDTH, 2 * radius + 12);
  const half = underHalf(layout);
  const sides = [1, -1].map((way) => ({ way, places: Math.max(0, Math.floor(((way > 0 ? width - centre : centre) - half) / step)) }));
  const ranks = Array.from({ length: Math.max(...sides.map(({ places }) => places)) }, (_, rank) => rank);
  const free = ranks.flatMap((rank) => sides.flatMap(({ way, places }) => (rank < places ? [centre + way * (half + step * (rank + 0.5))] : [])));
  return free.slice(0, count).map((x) => ({ x, base: receiver.base, height, radius }));
}

/** Places of vessels that have their names at their right: first those right of the tip, then those left of the name of the one under it. */
function besidePlaces({ receiver, width, centre }: Layout, height: number, radius: number): VesselPlace[] {
  const step = 2 * radius + NAME_WIDTH + 8;
  const count = (room: number): number => Math.max(0, Math.floor(room / step));
  const right = centre + receiver.radius + 12;
  const left = centre - receiver.radius - NAME_WIDTH - 8;
  const places = [
    ...Array.from({ length: count(width - right) }, (_, rank) => right + step * rank),
    ...Array.from({ length: count(left) }, (_, rank) => left - step * (rank + 1)),
  ];
  return places.map((from) => ({ x: from + radius, base: receiver.base, height, radius }));
}

/**
 * Heights above the ruler's 0, and below it where they are negative. A tube that is too long is cut: below the cut heights are true, where the last millimetres are
 * judged; above it the rest of the tube is drawn smaller, so that the rim shows. No liquid surface is drawn in the cut itself.
 */
function heights(zero: number, pxPerCm: number, space_cm: number): Pick<Layout, 'break' | 'rim'> & { heightAt: (cm: number) => number } {
  const room_px = Math.max(8, zero - ABOVE_RIM);
  const fits = space_cm * pxPerCm <= room_px;
  if (fits) return { heightAt: (cm) => zero - cm * pxPerCm, break: undefined, rim: zero - space_cm * pxPerCm };
  const true_px = TRUE_SHARE * room_px;
  const true_cm = (true_px - CUT) / pxPerCm;
  const smaller = (room_px - true_px - CUT) / (space_cm - true_cm);
  const heightAt = (cm: number): number => zero - (cm <= true_cm ? cm * pxPerCm : true_px + CUT + (cm - true_cm) * smaller);
  return { heightAt, break: zero - true_px, rim: zero - room_px };
}

/** Support, outlet, clamp, tip and receiver share what is left under the bed. */
function below({ width, height, bedBottom }: Room, centre: number, radius: number) {
  const label = width >= WIDE ? LABEL_BESIDE : LABEL;
  const free = height - bedBottom - label - SUPPORT;
  const outlet = Math.min(0.4 * free, 120);
  const gap = Math.min(0.16 * free, 44);
  const beaker = Math.min(free - outlet - gap, 130, (BEAKER_SHARE * width) / BEAKER_WIDTH);
  const outletTop = bedBottom + SUPPORT;
  return {
    outletRadius: Math.max(2.2, 0.16 * radius),
    outletTop,
    clamp: outletTop + 0.68 * outlet,
    tip: outletTop + outlet,
    receiver: { x: centre, base: height - label, height: beaker, radius: (beaker * BEAKER_WIDTH) / 2 },
  };
}
