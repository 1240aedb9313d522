import { css } from 'lit';

/** Two columns on a wide page, one on a phone; in print one page. */
export const debriefStyles = css`
  :host { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 24rem), 1fr)); gap: var(--gap-large); align-items: start; max-width: 76rem; }
  .bar, h1, .run, .wide { grid-column: 1 / -1; }
  .bar { display: flex; flex-wrap: wrap; gap: var(--gap-small); }
  h1 { margin: 0; }
  h1:focus { outline: none; }
  .run { margin: calc(-1 * var(--gap-large)) 0 0; color: var(--soft); }
  h2 { font-size: 1.05rem; }
  section { min-width: 0; }
  ul { margin: 0; padding-left: 1.25em; display: grid; gap: var(--gap-small); }
  p { margin: 0; }
  .where { width: 100%; max-width: 40rem; height: auto; font-size: 14px; overflow: visible; }
  .where text { fill: var(--ink); font-variant-numeric: tabular-nums; }
  .frame { fill: none; stroke: var(--edge); }
  .part { stroke: var(--edge); stroke-width: 1; }
  .ground { fill: var(--sheet); }
  .ground.r0, .ground.r2 { fill: var(--wash); }
  .ground.r1 { fill: var(--accent); }
  .ground.bed { fill: var(--caution-paper); }
  .lines { stroke: var(--soft); fill: var(--soft); stroke-width: 1.25; }
  @media print {
    :host { gap: 0.6rem 1.2rem; grid-template-columns: 1fr 1fr; font-size: 9.5pt; max-width: none; }
    .bar { display: none; }
    .run { margin-top: -0.4rem; }
    section { break-inside: avoid; }
  }
`;
