import { css } from 'lit';

export const figureStyles = css`
  :host { display: block; position: relative; min-height: 440px; }
  .stage { position: absolute; inset: 0; overflow-x: clip; }
  canvas { position: absolute; }
  .rough canvas, .rough svg.plot .line, .rough svg.plot .edge { opacity: 0.6; }
  .rough-note { position: absolute; left: 4.5rem; top: 0; z-index: 3; margin: 0; padding: 0 0.4em; font-size: var(--text-small); background: var(--sheet); border-radius: var(--round); }
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
  svg.plot .front { fill: none; stroke: var(--text-HCl); stroke-width: 1; stroke-dasharray: 3 3; stroke-opacity: 0.8; }
  svg.plot .front.half { stroke-width: 1.5; stroke-dasharray: 7 3; stroke-opacity: 1; }
  svg.plot .veil .cover { fill: var(--paper); fill-opacity: 0.3; }
  svg.plot .veil.poured .cover { fill-opacity: 0; }
  svg.plot .veil.effluent .cover { fill-opacity: 0.15; }
  svg.plot .veil.whole .cover { fill-opacity: 1; }
  svg.plot .hatch { stroke: var(--edge); stroke-width: 1; stroke-opacity: 0.35; }
  svg.plot .stem { fill: none; stroke: var(--ink); stroke-width: 1; stroke-opacity: 0.45; }
  svg.plot .stem.held { stroke: var(--accent); stroke-width: 2; stroke-opacity: 1; }
  svg.plot .window .stretch { fill: var(--good-paper); fill-opacity: 0.55; }
  svg.plot .window .acid { fill: var(--good-ink); fill-opacity: 0.18; }
  svg.plot .window .acid-line, svg.plot .window .ends { fill: none; stroke: var(--good-ink); stroke-width: 1.5; }
  svg.plot .window .start { fill: none; stroke: var(--good-ink); stroke-width: 3; }
  svg.plot .window .ends { stroke-dasharray: 2 2; }
  svg.plot .window-note { fill: var(--good-ink); paint-order: stroke; stroke: var(--paper); stroke-width: 3px; stroke-linejoin: round; }
  svg.plot .lost path { fill: var(--problem-ink); fill-opacity: 0.35; stroke: var(--problem-ink); stroke-width: 1.5; }
  svg.plot .note.lost { fill: var(--problem-ink); font-weight: 600; paint-order: stroke; stroke: var(--paper); stroke-width: 3px; stroke-linejoin: round; }
  svg.plot .lost.allowed path { fill: var(--soft); stroke: var(--soft); }
  svg.plot .note.lost.allowed { fill: var(--soft); font-weight: 400; }
  svg.plot .predictions line { stroke: var(--ink); stroke-width: 1.5; stroke-dasharray: 2 3; }
  svg.plot .predictions path { fill: var(--ink); stroke: var(--paper); }
  svg.plot .prediction { fill: var(--ink); }
  svg.plot .now-label { fill: var(--accent); font-weight: 600; }
  svg.plot .depth-mark { stroke: var(--ink); stroke-width: 1; stroke-dasharray: 1 3; stroke-linecap: round; }
  svg.plot .verdict { font-weight: 600; }
  svg.plot .verdict.good { fill: var(--good-ink); }
  svg.plot .verdict.bad { fill: var(--problem-ink); }
  .surface { position: absolute; touch-action: pan-y; cursor: crosshair; }
  .surface:focus-visible { outline: 3px solid var(--focus); outline-offset: 2px; border-radius: 2px; }
  .read-out { position: absolute; z-index: 4; pointer-events: none; padding: 0.375rem 0.625rem; background: var(--sheet); border: 1px solid var(--edge);
    border-radius: var(--round); font-size: var(--text-small); line-height: 1.35; max-width: calc(100% - 1rem); box-shadow: 0 2px 8px rgb(0 0 0 / 12%); }
  .read-out p { margin: 0; display: flex; justify-content: space-between; gap: 1em; }
  .read-out table { border-collapse: collapse; white-space: nowrap; }
  .read-out th { font-weight: 600; text-align: left; }
  .read-out thead th { font-weight: 400; color: var(--soft); text-align: right; }
  .read-out th, .read-out td { padding: 0 0 0 0.75em; text-align: right; }
  .read-out tr > :first-child { padding-left: 0; text-align: left; }
  @media (forced-colors: active) { svg.plot .edge, svg.plot .front { forced-color-adjust: none; } }
`;
