import { css } from 'lit';

/** A part of the bench strip: small heading, controls in rows, a refusal under them. */
export const sectionStyles = css`
  :host { display: block; min-width: 0; }
  section { display: grid; gap: var(--gap-small); min-width: 0; align-content: start; }
  h2 { font-size: var(--text-small); font-weight: 600; margin: 0; }
  .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: center; }
  .refused { margin: 0; color: var(--problem-ink); font-size: var(--text-small); }
  .refused:empty { display: none; }
`;
