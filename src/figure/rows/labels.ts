// Room for words: there is no measuring of text without a browser, so widths are estimated from the count of characters.

/** Mean width of a character at the small text size, px. */
const CHARACTER = 7.4;
const GAP = 10;

export interface Label {
  readonly text: string;
  /** Middle, px. */
  readonly at: number;
}

export function textWidth(text: string): number {
  return text.length * CHARACTER;
}

export function fits(text: string, width: number): boolean {
  return textWidth(text) <= width;
}

/** Labels on one line, moved inwards from the ends, the most wanted first; one that would touch another is left out. */
export function placedLabels(labels: readonly Label[], left: number, right: number): Label[] {
  const placed: Label[] = [];
  for (const { text, at } of labels) {
    const half = textWidth(text) / 2;
    const middle = Math.max(Math.min(at, right - half), left + half);
    if (placed.every((other) => Math.abs(other.at - middle) >= half + textWidth(other.text) / 2 + GAP)) placed.push({ text, at: middle });
  }
  return placed;
}

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
