import { css } from 'lit';

/** On a light page the panel is the white card that colours of liquids are seen against; on a dark one the drawing puts it behind the glass. */
export const glassStyles = css`
  :host { display: block; width: 100%; height: 100%; font-size: var(--text-small); }
  .stage { position: relative; width: 100%; height: 100%; min-height: 0; overflow: hidden; border-radius: var(--round); color: var(--ink); forced-color-adjust: none;
    background: linear-gradient(90deg, #ecedea, #f6f6f5 30%, #f6f6f5 70%, #eeeeeb); }
  .stage.dark { background: linear-gradient(90deg, #141b24, #1b2430 40%, #1b2430 60%, #161e28); }
  canvas, .hand, .words, .instead { position: absolute; inset: 0; width: 100%; height: 100%; }
  .instead { display: grid; grid-template-rows: minmax(0, 1fr) auto; background: var(--paper); color: var(--ink); }
  .hand { cursor: grab; touch-action: pan-y; }
  .hand:active { cursor: grabbing; }
  .hand:focus-visible { outline-offset: -3px; border-radius: var(--round); }
  .words { pointer-events: none; overflow: hidden; }
  .words text { font-size: 0.75rem; fill: var(--soft); dominant-baseline: central; font-variant-numeric: tabular-nums; }
  .words .end { text-anchor: end; }
  .words .press { fill: var(--accent); font-weight: 600; }
  .words .centre, .depth text { text-anchor: middle; }
  .words .strong { fill: var(--ink); font-weight: 600; }
  .words .ruler { text-anchor: end; fill: #3d3420; font-size: 0.6875rem; }
  .words .tick { font-size: 0.6875rem; }
  .words line { stroke-width: 2.5; }
  .words .ion { fill: var(--ink); font-weight: 600; paint-order: stroke; stroke: var(--paper); stroke-width: 2px; }
  .words .depth rect { fill: #ffffff; stroke: #838a94; }
  .words .depth text { fill: #18202c; }
  .stronger { position: absolute; right: 0.3em; top: 0.3em; max-width: calc(100% - 5.5rem); padding: 0.1em 0.4em; border: 1px solid var(--caution-edge); border-radius: var(--round);
    background: var(--caution-paper); color: var(--caution-ink); font-size: 0.75rem; line-height: 1.15; pointer-events: none; }
  .turn { position: absolute; left: 0.2em; top: 0.2em; min-width: 24px; min-height: 24px; padding: 0 0.35em; border-color: transparent; background: none; color: var(--soft); font-size: 0.75rem; }
  .turn.aside { left: auto; right: 0; }
  .handle { position: absolute; min-height: 0; padding: 0; border: 1px solid transparent; background: none; border-radius: var(--round); }
  .handle.carried { cursor: grab; touch-action: pan-y; }
  .handle.hint { cursor: pointer; }
  .handle.turned { cursor: ew-resize; touch-action: pan-y; }
  .handle:hover:not(:disabled) { background: none; border: 1px dashed var(--edge); }
  .handle:focus-visible { outline: 3px solid var(--focus); outline-offset: -2px; }
  @media (pointer: coarse) { .turn { min-height: 44px; min-width: 44px; } }
  .note { margin: 0; color: var(--soft); }
  @media print { :host { display: none; } }
`;
