import { css } from 'lit';

/** What the parts of this view share: text that a back row can read, and the strokes of its drawings. */
export const partStyles = css`
  :host { display: block; min-width: 0; --text-small: 1rem; }
  p { margin: 0 0 var(--gap-small); max-width: 68ch; }
  .say { font-size: 1.125rem; }
  .status { color: var(--soft); }
  .status:empty { display: none; }
  .row { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap); align-items: end; margin: var(--gap-small) 0; }
  svg.plot { width: 100%; touch-action: pan-y; }
  svg.plot.drag { cursor: ew-resize; }
  svg.plot text { font-size: 1rem; }
  svg.plot .name { font-weight: 600; }
  svg.plot .layer { stroke-width: 1.25; }
  svg.plot .half { stroke: var(--soft); stroke-dasharray: 2 4; }
  svg.plot .dot { stroke: var(--paper); stroke-width: 2; }
  svg.plot .own { fill: var(--paper); stroke-width: 2; }
  svg .liquid { fill: var(--wash); stroke: var(--rule); }
  svg .bead { fill: var(--caution-paper); stroke: var(--caution-edge); stroke-width: 2; }
  svg .fixed rect { fill: none; stroke: var(--ink); stroke-width: 1.5; }
  svg .fixed path, svg .hydrogen { stroke: var(--ink); stroke-width: 1.75; fill: none; }
  svg .chloride { fill: var(--paper); stroke: var(--line-HCl); stroke-width: 2; }
  svg .metal { stroke: var(--paper); stroke-width: 1; }
  svg.plot .streak { fill-opacity: 0.4; stroke-width: 1.5; }
  svg.plot .bed-top { fill: none; stroke: var(--edge); stroke-width: 1; }
  svg.plot .front { fill: none; stroke: var(--ink); stroke-width: 2; stroke-dasharray: 7 4; }
  svg.plot .chosen { stroke: var(--accent); stroke-width: 3; }
  dl { display: grid; grid-template-columns: auto auto; gap: 0.25em var(--gap); margin: 0 0 var(--gap-small); justify-content: start; }
  dt { color: var(--soft); }
  dd { margin: 0; font-weight: 600; }
  table { border-collapse: collapse; margin: 0 0 var(--gap-small); }
  caption { text-align: left; color: var(--soft); padding-bottom: 0.25em; }
  th, td { text-align: left; padding: 0.2em 1em 0.2em 0; font-weight: 400; vertical-align: baseline; }
  thead th { color: var(--soft); border-bottom: 1px solid var(--edge); }
  tbody tr + tr > * { border-top: 1px solid var(--rule); }
  .number { text-align: right; white-space: nowrap; }
  tr.chosen > * { font-weight: 700; }
  .swatch { display: inline-block; width: 1.6em; height: 1.1em; border: 1px solid var(--edge); border-radius: 3px; vertical-align: -0.15em; }
  .scroll { overflow-x: auto; }
  details { margin-top: var(--gap-small); }
  summary { cursor: pointer; min-height: var(--target); display: flex; align-items: center; color: var(--accent); }
  @media (forced-colors: active) { .swatch { forced-color-adjust: none; } }
`;
