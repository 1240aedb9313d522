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
  .readings { grid-column: 1 / -1; display: grid; grid-template-columns: minmax(0, 2fr) minmax(0, 3fr); gap: var(--gap-large) calc(2 * var(--gap-large)); align-items: start; }
  .second { grid-column: 2; grid-row: 1; }
  section { min-width: 0; }
  ul { margin: 0 0 var(--gap-small); padding-left: 1.25em; }
  p { margin: 0 0 var(--gap-small); }
  .soft { color: var(--soft); }
  form { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: end; }
  form label { display: grid; font-size: var(--text-small); color: var(--soft); flex: 1 1 10rem; }
  .safety { font-size: var(--text-small); }
  .safety h2 { font-size: var(--text-large); }
  @media (max-width: 70rem) { .pages, .readings { grid-template-columns: minmax(0, 1fr); } .second { grid-column: 1; grid-row: auto; } }
  @media print {
    .pages { display: block; }
    .second { break-before: page; }
    .readings { grid-template-columns: minmax(0, 1fr) minmax(0, 1.7fr); gap: 0.5rem 1rem; font-size: 6.5pt; line-height: 1.15; margin-top: 0.5rem; }
    .page { gap: 0.5rem; font-size: 8.5pt; line-height: 1.25; }
    .page h2 { font-size: 10.5pt; margin-bottom: 0.15rem; }
    .own form { display: none; }
    .safety { font-size: 7.5pt; }
  }
`;
