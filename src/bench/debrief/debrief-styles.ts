import { css } from 'lit';

/** Two columns on a wide page, one on a phone; in print one page. */
export const debriefStyles = css`
  :host { display: grid; grid-template-columns: repeat(2, minmax(0, 1fr)); gap: var(--gap-large) calc(2 * var(--gap-large)); align-items: start; max-width: 72rem; }
  .bar, h1, .lesson, .run, .wide { grid-column: 1 / -1; }
  .bar { display: flex; flex-wrap: wrap; gap: var(--gap-small); }
  h1 { margin: 0; }
  h1:focus { outline: none; }
  .lesson { margin: calc(-1 * var(--gap)) 0 0; font-size: var(--text-large); line-height: 1.35; max-width: 60rem; text-wrap: pretty; }
  .run { margin: calc(-1 * var(--gap)) 0 0; color: var(--soft); }
  .run-figure { min-width: 0; margin-top: calc(-1 * var(--gap)); }
  .run-figure bf-figure { height: 30rem; }
  h2 { font-size: 1.05rem; }
  h3 { margin: var(--gap) 0 0.25rem; font-size: 1rem; font-weight: 400; color: var(--soft); }
  .part-of { display: grid; gap: var(--gap-large); min-width: 0; }
  section { min-width: 0; }
  ul { margin: 0; padding-left: 1.25em; display: grid; gap: var(--gap-small); }
  p { margin: 0; }
  figure { margin: 0; }
  .whole { display: flex; height: 2rem; border: 1px solid var(--edge); }
  .part { min-width: 2px; border-left: 1px solid var(--edge); }
  .part:first-child { border-left: 0; }
  .swatch { display: inline-block; width: 1.5rem; height: 0.9rem; margin-right: 0.5rem; vertical-align: -0.1rem; border: 1px solid var(--edge); }
  .where table { border-collapse: collapse; margin-top: var(--gap-small); width: 100%; max-width: 26rem; }
  .where th { text-align: left; font-weight: 400; }
  .where td { text-align: right; white-space: nowrap; padding-left: var(--gap); }
  .part, .swatch { print-color-adjust: exact; --line: var(--ion, var(--edge)); background-color: var(--sheet); }
  .r0 { background-image: repeating-linear-gradient(45deg, var(--line) 0 1px, transparent 1px 6px); }
  .r1 { background-color: var(--ion, var(--accent)); }
  .r2 { background-image: repeating-linear-gradient(-45deg, var(--line) 0 2px, transparent 2px 8px); }
  .r3 { background-image: repeating-linear-gradient(0deg, var(--line) 0 1px, transparent 1px 5px); }
  .head { background-image: radial-gradient(var(--line) 1px, transparent 1.5px); background-size: 6px 6px; }
  .bed { background-color: var(--caution-paper); background-image: repeating-linear-gradient(45deg, var(--line) 0 1px, transparent 1px 7px), repeating-linear-gradient(-45deg, var(--line) 0 1px, transparent 1px 7px); }
  .tip { background-image: repeating-linear-gradient(90deg, var(--line) 0 1px, transparent 1px 5px); }
  .spilled { background-image: repeating-linear-gradient(90deg, var(--line) 0 3px, transparent 3px 6px); }
  @media (max-width: 48rem) {
    :host { grid-template-columns: minmax(0, 1fr); }
  }
  @media print {
    :host { gap: 0.6rem 1.4rem; grid-template-columns: 1fr 1fr; font-size: 9.5pt; max-width: none; }
    .bar, .leads { display: none; }
    .lesson, .run { margin-top: -0.4rem; }
    .lesson { font-size: 11pt; }
    .run-figure { break-inside: avoid; }
    .run-figure bf-figure { height: 440px; }
    section { break-inside: avoid; }
  }
`;
