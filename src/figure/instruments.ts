import { css } from 'lit';

// What takes an instrument to see: bands in colour, acid fronts, curves of the effluent, windows, losses, and the handles on them.
// A run seen by eye needs none of it, so it is loaded on its own.
export { depthWords } from './depth-words.ts';
export { placedHandles, stems } from './handles.ts';
export { readPlace } from './cursor/read-out.ts';
export { legend } from './rows/legend.ts';
export { lossMarks, lossWishes } from './rows/losses.ts';
export { effluentRow, effluentWords } from './rows/row-effluent.ts';
export { startBand, verdictLine, windowBand, uprightsOf, windowWishes } from './rows/targets.ts';
export { acidFronts } from './streaks/fronts.ts';
export { measuredFor } from './streaks/measured.ts';
export { StreakImage } from './streaks/streak-image.ts';

/** Styles of what only a measured run has in its figure: fronts, windows, losses, handles, the read-out. */
export const instrumentStyles = css`
  .rough canvas, .rough svg.plot .line, .rough svg.plot .edge { opacity: 0.6; }
  .rough-note { position: absolute; left: 4.5rem; top: 0; z-index: 3; margin: 0; padding: 0 0.4em; font-size: var(--text-small); background: var(--sheet); border-radius: var(--round); }
  svg.plot .front { fill: none; stroke: var(--text-HCl); stroke-width: 1; stroke-dasharray: 3 3; stroke-opacity: 0.8; }
  svg.plot .front.half { stroke-width: 1.5; stroke-dasharray: 7 3; stroke-opacity: 1; }
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
  svg.plot .verdict { font-weight: 600; }
  svg.plot .verdict.good { fill: var(--good-ink); }
  svg.plot .verdict.bad { fill: var(--problem-ink); }
  .read-out { position: absolute; z-index: 4; pointer-events: none; padding: 0.375rem 0.625rem; background: var(--sheet); border: 1px solid var(--edge);
    border-radius: var(--round); font-size: var(--text-small); line-height: 1.35; max-width: calc(100% - 1rem); box-shadow: 0 2px 8px rgb(0 0 0 / 12%); }
  .read-out p { margin: 0; display: flex; justify-content: space-between; gap: 1em; }
  .read-out table { border-collapse: collapse; white-space: nowrap; }
  .read-out th { font-weight: 600; text-align: left; }
  .read-out thead th { font-weight: 400; color: var(--soft); text-align: right; }
  .read-out th, .read-out td { padding: 0 0 0 0.75em; text-align: right; }
  .read-out tr > :first-child { padding-left: 0; text-align: left; }
`;
