import { type Box, overlap } from './box.ts';

// Labels of a drawing, placed so that none lies over another.

export interface LabelPlace {
  /** End or middle of the text, by `anchor`, and its baseline, px. */
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
}

export interface LabelWish {
  /** Wordings, the fullest first. */
  readonly texts: readonly string[];
  /** The place that is wanted first, such as right of a point, then those that will do. */
  readonly places: readonly LabelPlace[];
  /** Where the label must lie, px. */
  readonly within: Box;
  /** Left out where it would lie over a curve. */
  readonly clear?: boolean;
  /** Its letters are wider. */
  readonly bold?: boolean;
}

export interface PlacedLabel extends LabelPlace {
  readonly text: string;
  readonly box: Box;
}

export interface Surroundings {
  /** Where no label may lie, px. */
  readonly taken?: readonly Box[];
  /** Whether something lies in a place, such as a curve, that a label keeps off as long as there is another. */
  readonly covers?: (box: Box) => boolean;
  /** Least free space between two labels side by side, px. */
  readonly apart?: number;
  /** Width of a text, px. */
  readonly width: (text: string, bold: boolean) => number;
}

/** Above and below the baseline, and from one line of text to the next, px, for text of 14 px. */
const ABOVE = 13;
const BELOW = 4;
const LINE = 18;
/** A label strays at most so many lines from its place: farther away it would be read with something else. */
const STRAY = 4;
const STEPS = [0, ...Array.from({ length: STRAY }, (_, i) => [i + 1, -i - 1]).flat()];

/** Bounds of a label that must stay on its line. */
export function onLine(y: number, left: number, right: number): Box {
  return { left, right, top: y - ABOVE, bottom: y + BELOW };
}

/**
 * Places labels in the order given, the most wanted first. Each takes the first of its wordings, lines and places that touches
 * no label before it and no curve; failing that, one over a curve unless it must be clear; failing that, it is left out (undefined).
 */
export function placeLabels(wishes: readonly LabelWish[], surroundings: Surroundings): (PlacedLabel | undefined)[] {
  const { taken = [], covers, apart = 4, width } = surroundings;
  const boxes = [...taken];
  return wishes.map((wish) => {
    const placed = best(wish, boxes, { covers, apart, width });
    if (placed) boxes.push(placed.box);
    return placed;
  });
}

function best(
  wish: LabelWish,
  boxes: readonly Box[],
  { covers, apart, width }: Pick<Surroundings, 'covers' | 'width'> & { apart: number },
): PlacedLabel | undefined {
  let overCurve: PlacedLabel | undefined;
  for (const label of candidates(wish, width)) {
    const room = widened(label.box, apart);
    if (boxes.some((other) => overlap(other, room))) continue;
    if (!covers?.(label.box)) return label;
    overCurve ??= label;
  }
  return wish.clear ? undefined : overCurve;
}

/** Every wording on every line at every place, the best first; a wording that has no room at all is passed over. */
function* candidates({ texts, places, within, bold = false }: LabelWish, width: Surroundings['width']): Generator<PlacedLabel> {
  for (const text of texts) {
    const wide = width(text, bold);
    if (wide > within.right - within.left) continue;
    // Moved inwards it would cover what it stands beside, so a place with room comes first.
    const isIn = (place: LabelPlace): boolean => leftOf(place, wide) >= within.left && leftOf(place, wide) + wide <= within.right;
    const ordered = [...places.filter(isIn), ...places.filter((place) => !isIn(place))];
    for (const step of STEPS) for (const place of ordered) yield placed(text, { ...place, y: place.y + step * LINE }, within, wide);
  }
}

function leftOf({ x, anchor }: LabelPlace, width: number): number {
  return x - { start: 0, middle: width / 2, end: width }[anchor];
}

/** Moved inwards as far as its bounds ask. */
function placed(text: string, place: LabelPlace, within: Box, width: number): PlacedLabel {
  const { x, y, anchor } = place;
  const wanted = leftOf(place, width);
  const left = clamped(wanted, within.left, within.right - width);
  const base = clamped(y, within.top + ABOVE, within.bottom - BELOW);
  return { text, x: x + (left - wanted), y: base, anchor, box: { left, right: left + width, top: base - ABOVE, bottom: base + BELOW } };
}

function clamped(value: number, least: number, most: number): number {
  return Math.max(least, Math.min(value, most));
}

function widened({ left, right, top, bottom }: Box, by: number): Box {
  return { left: left - by, right: right + by, top, bottom };
}
