import { css } from 'lit';

/** Two columns on a wide page, one on a small one, two sheets in print. */
export const viewStyles = css`
  :host { display: block; }
  .bar { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap); align-items: center; }
  h1 { margin: 0 auto 0 0; }
  h2 { margin: 0 0 var(--gap-small); }
  h3 { margin: var(--gap-small) 0; }
  .run { color: var(--soft); margin: 0 0 var(--gap); }
  .pages { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); gap: var(--gap-large) calc(2 * var(--gap-large)); align-items: start; }
  .page { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap-large); min-width: 0; }
  .first, .second { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap-large); min-width: 0; align-content: start; }
  .run-figure { min-width: 0; margin: calc(-2 * var(--gap-large)) 0 var(--gap-large); }
  .run-figure bf-figure { height: 26rem; }
  .why { display: grid; font-size: var(--text-small); color: var(--soft); }
  textarea { font: inherit; font-size: 1rem; color: var(--ink); background: var(--sheet); border: 1px solid var(--edge); border-radius: var(--round); padding: 0.5em; resize: vertical; }
  section { min-width: 0; }
  ul { margin: 0 0 var(--gap-small); padding-left: 1.25em; }
  p { margin: 0 0 var(--gap-small); }
  .soft { color: var(--soft); }
  form { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: end; }
  form label { display: grid; font-size: var(--text-small); color: var(--soft); flex: 1 1 10rem; }
  .safety { font-size: var(--text-small); }
  .safety h2 { font-size: var(--text-large); }
  @media (max-width: 70rem) {
    .pages { grid-template-columns: minmax(0, 1fr); }
    .first, .second { display: contents; }
    .page { order: 1; }
    .at-column, .at-bench { order: 2; }
    .second .page:last-child { order: 3; }
  }
  @media print {
    .bar h1 { font-size: 13pt; }
    .run { font-size: 8.5pt; margin-bottom: 0.25rem; }
    .pages { display: block; --text-small: 7.5pt; --text-large: 10.5pt; --gap: 0.4rem; --gap-small: 0.2rem; --target: 1rem; font-size: 8pt; line-height: 1.2; }
    .first { display: grid; grid-template-columns: minmax(0, 1.25fr) minmax(0, 1fr); gap: 0.5rem 1.25rem; align-items: start; }
    .at-column, .at-bench { --text-small: 6.5pt; font-size: 7pt; line-height: 1.1; }
    .second { break-before: page; display: grid; gap: 0.5rem; }
    .run-figure { margin: -1.5rem 0 0.5rem; break-inside: avoid; }
    .run-figure bf-figure { height: 300px; }
    .why { display: block; }
    textarea { display: block; box-sizing: border-box; width: 100%; margin: 0; padding: 0; border: 0; border-radius: 0; resize: none; font-size: 8pt; line-height: 1.4; }
    .page { gap: 0.4rem; }
    .page h2 { font-size: 10.5pt; margin-bottom: 0.1rem; }
    .own form, .nothing-own { display: none; }
    .safety { font-size: 7.5pt; }
  }
`;
