import { css } from 'lit';

export const figureStyles = css`
  :host { display: block; position: relative; min-height: 396px; }
  .stage { position: absolute; inset: 0; overflow-x: clip; }
  canvas { position: absolute; }
  svg.plot { position: absolute; left: 0; top: 0; pointer-events: none; }
  /* px like the layout: room for words is worked out at this size */
  svg.plot text { font-size: 14px; paint-order: stroke; stroke: var(--paper); stroke-width: 3px; stroke-linejoin: round; }
  svg.plot .bar { stroke: var(--edge); stroke-width: 1; }
  svg.plot .portion { stroke: var(--soft); stroke-width: 1; }
  svg.plot .dripped .around { stroke: var(--edge); stroke-width: 1; }
  svg.plot .bar-label { fill: var(--ink); }
  svg.plot .bar-note, svg.plot .row-title { fill: var(--soft); paint-order: stroke; stroke: var(--paper); stroke-width: 3px; stroke-linejoin: round; }
  svg.plot .ask { fill: var(--ink); font-weight: 600; }
  svg.plot .bed-top { fill: none; stroke: var(--edge); stroke-width: 1; }
  svg.plot .edge { fill: none; stroke-width: 1.25; stroke-opacity: 0.9; }
  svg.plot .veil .cover { fill: var(--paper); fill-opacity: 0.3; }
  svg.plot .veil.poured .cover { fill-opacity: 0; }
  svg.plot .veil.effluent .cover { fill-opacity: 0.15; }
  svg.plot .veil.whole .cover { fill-opacity: 1; }
  svg.plot .hatch { stroke: var(--edge); stroke-width: 1; stroke-opacity: 0.35; }
  svg.plot .predictions line { stroke: var(--ink); stroke-width: 1.5; stroke-dasharray: 2 3; }
  svg.plot .predictions path { fill: var(--ink); stroke: var(--paper); }
  svg.plot .prediction { fill: var(--ink); }
  svg.plot .now-label { fill: var(--accent); font-weight: 600; }
  svg.plot .depth-mark { stroke: var(--ink); stroke-width: 1; stroke-dasharray: 1 3; stroke-linecap: round; }
  .surface { position: absolute; touch-action: pan-y; cursor: crosshair; }
  .surface:focus-visible { outline: 3px solid var(--focus); outline-offset: 2px; border-radius: 2px; }
  @media (forced-colors: active) { svg.plot .edge, svg.plot .front { forced-color-adjust: none; } }
`;
