import { svg, type SVGTemplateResult } from 'lit';

// Pictograms of our own, 32 x 32, drawn with the current colour. Each stands beside words, never alone.

export type Pictogram = 'warning' | 'acid' | 'eyes' | 'hood' | 'flame' | 'apart' | 'hand' | 'glass';

const DRAWINGS: Readonly<Record<Pictogram, SVGTemplateResult>> = {
  warning: svg`<path d="M16 4 30 28H2Z"/><path d="M16 12v8M16 24v.5"/>`,
  acid: svg`<path d="M6 4l14 5-2 5-14-5Z"/><path d="M19 15v2M19 20v2"/><path d="M4 27h8c3-4 11-4 14 0h2"/>`,
  eyes: svg`<path d="M3 12h26v7c0 3-2 5-5 5h-2c-3 0-4-4-6-4s-3 4-6 4H8c-3 0-5-2-5-5Z"/><path d="M3 15H1M29 15h2"/>`,
  hood: svg`<path d="M4 28V10l6-6h12l6 6v18Z"/><path d="M4 12h24"/><path d="M11 24c3-2-2-4 0-7M16 24c3-2-2-4 0-7M21 24c3-2-2-4 0-7"/>`,
  flame: svg`<path d="M16 3c2 6 9 9 9 17a9 9 0 0 1-18 0c0-4 3-6 4-9 2 1 3 3 3 5 2-3 3-8 2-13Z"/>`,
  apart: svg`<path d="M5 6h7v14a3.5 3.5 0 0 1-7 0ZM20 6h7v14a3.5 3.5 0 0 1-7 0Z"/><path d="M16 3v26" stroke-dasharray="3 3"/>`,
  hand: svg`<path d="M9 29V18l-4-5 2-2 4 4V5h3v9-11h3v11-9h3v10-7h3v13l-2 8Z"/>`,
  glass: svg`<path d="M12 3v20M20 3v20M12 23l3 3v4h2v-4l3-3"/><path d="M12 12h8"/><path d="M5 9h5M22 9h5"/>`,
};

/** The drawing as an inline SVG, hidden from screen readers: the words beside it say the same. */
export function pictogram(name: Pictogram): SVGTemplateResult {
  return svg`<svg viewBox="0 0 32 32" width="32" height="32" fill="none" stroke="currentColor" stroke-width="2"
    stroke-linejoin="round" stroke-linecap="round" aria-hidden="true" focusable="false">${DRAWINGS[name]}</svg>`;
}
