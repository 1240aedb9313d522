import { nothing, svg, type SVGTemplateResult } from 'lit';
import { type LabelWish, type PlacedLabel, placeLabels, type Surroundings } from '../../plot/place-labels.ts';

// Room for words: there is no measuring of text without a browser, so widths are estimated from the count of characters.

/** Mean width of a character at the small text size, px, and how much wider bold ones are (measured: 8 px a letter). */
const CHARACTER = 7.4;
export const BOLD = 1.1;
/** Looks that are drawn bold; see the styles. */
const BOLD_LOOKS = /^(line-label|now-label|lost)/;

export function textWidth(text: string): number {
  return text.length * CHARACTER;
}

export function fits(text: string, width: number): boolean {
  return textWidth(text) <= width;
}

/** A wish for a label, and how it is drawn. */
export interface Worded extends LabelWish {
  readonly look: string;
  readonly colour?: string;
}

export interface PlacedWords extends PlacedLabel {
  readonly look: string;
  readonly colour?: string;
}

/** The labels that have a place; see `placeLabels`. */
export function placedWords(wishes: readonly Worded[], surroundings: Omit<Surroundings, 'width'> = {}): PlacedWords[] {
  return placeLabels(
    wishes.map((wish) => ({ ...wish, bold: BOLD_LOOKS.test(wish.look) })),
    { ...surroundings, width: (text, bold) => textWidth(text) * (bold ? BOLD : 1) },
  ).flatMap((placed, i) => {
    const { look, colour } = wishes[i];
    return placed ? [{ ...placed, look, ...(colour ? { colour } : {}) }] : [];
  });
}

export function drawnWords(words: readonly PlacedWords[]): SVGTemplateResult {
  return svg`${words.map(({ text, x, y, anchor, look, colour }) => svg`<text class=${look} x=${x} y=${y} text-anchor=${anchor} fill=${colour ?? nothing}>${text}</text>`)}`;
}
