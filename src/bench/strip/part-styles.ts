import { css } from 'lit';

/** A part of the strip: its name, and its controls in one row. */
export const partStyles = css`
  :host { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: center; min-width: 0; }
  .name { color: var(--soft); font-size: 0.8125rem; }
  button { white-space: nowrap; }
  @media (max-width: 40rem) { .name { display: none; } }
`;
