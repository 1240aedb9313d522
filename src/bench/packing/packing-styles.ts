import { css } from 'lit';

/** Filling the tube, as the first item of the task and no larger than it must be. */
export const packingStyles = css`
  :host { display: grid; gap: var(--gap-small); --target: 2rem; font-weight: 400; font-size: var(--text-small); line-height: 1.3; min-width: 0; }
  p { margin: 0; }
  .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: end; }
  button { padding: 0 0.5em; }
  select { min-width: 0; max-width: 100%; }
  .check { display: flex; align-items: center; gap: 0.25rem; min-height: var(--target); }
  @media (max-width: 40rem) { .row { gap: 0.375rem; } select, .row button { flex: 1 1 auto; } }
  @media (pointer: coarse) { :host { --target: 2.75rem; } }
`;
