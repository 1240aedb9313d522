import { css } from 'lit';

/** Strokes and type of every plot; put it into the styles of the element that holds the SVG. */
export const plotStyles = css`
  svg.plot { display: block; overflow: visible; fill: var(--ink); font-family: inherit; font-variant-numeric: tabular-nums; }
  svg.plot text { font-size: var(--text-small); }
  svg.plot .tick-text, svg.plot .axis-title, svg.plot .bracket-label { fill: var(--soft); }
  svg.plot .axis-line, svg.plot .tick { stroke: var(--edge); stroke-width: 1; }
  svg.plot .grid { stroke: var(--rule); stroke-width: 1; }
  svg.plot .frame { stroke: var(--rule); stroke-width: 1; }
  svg.plot .line-label, svg.plot .band-label { font-weight: 600; }
  svg.plot .line-label, svg.plot .haloed { paint-order: stroke; stroke: var(--paper); stroke-width: 3px; stroke-linejoin: round; }
  svg.plot .bracket path { stroke: var(--edge); stroke-width: 1.5; }
  svg.plot .cursor line { stroke: var(--accent); stroke-width: 2; }
  svg.plot .cursor.look line { stroke: var(--ink); stroke-width: 1; stroke-dasharray: 2 2; }
  svg.plot .cursor text { fill: var(--accent); font-weight: 600; }
`;
