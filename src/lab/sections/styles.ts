import { css } from 'lit';

/** What can be folded away in the editor, the same everywhere. */
export const foldStyles = css`
  :host { display: block; min-width: 0; }
  details { margin-top: var(--gap-small); }
  summary { min-height: var(--target); display: flex; align-items: center; gap: var(--gap-small); cursor: pointer; color: var(--accent); }
  summary::before { content: '▸'; width: 1em; flex: none; }
  details[open] > summary::before { content: '▾'; }
  summary::-webkit-details-marker { display: none; }
`;

/** Rows of controls and the words beside them. */
export const partStyles = css`
  :host { display: block; min-width: 0; }
  .row { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap); align-items: end; }
  :host > * + * { margin-top: var(--gap-small); }
  p { margin: 0; }
  .soft { color: var(--soft); font-size: var(--text-small); }
  .problem { color: var(--problem-ink); font-size: var(--text-small); overflow-wrap: anywhere; }
  .problem:empty { display: none; }
  label.text { display: grid; grid-template-columns: minmax(0, 1fr); gap: 0.125rem; font-size: var(--text-small); color: var(--soft); }
  label.text input, label.text textarea { font-size: 1rem; color: var(--ink); }
  textarea { font: inherit; width: 100%; min-height: 5rem; background: var(--sheet); border: 1px solid var(--edge); border-radius: var(--round); padding: 0.4em 0.6em; resize: vertical; }
  [aria-invalid='true'] { border: 2px solid var(--problem-ink); }
  ul { margin: 0; padding: 0; list-style: none; display: grid; gap: var(--gap); }
  select { max-width: 100%; }
`;
