import { css } from 'lit';

/** Buttons, fields and focus, the same in every shadow root. */
export const controlStyles = css`
  *, *::before, *::after { box-sizing: border-box; }
  button, select, input { font: inherit; font-variant-numeric: tabular-nums; color: inherit; }
  button, select, input:not([type='range'], [type='radio'], [type='checkbox']) {
    min-height: var(--target); padding: 0 var(--pad, 0.75em); background: var(--sheet); border: 1px solid var(--edge); border-radius: var(--round); }
  button { cursor: pointer; }
  button:hover:not(:disabled) { background: var(--wash); }
  button.primary { background: var(--accent); border-color: var(--accent); color: var(--on-accent); }
  button.primary:hover:not(:disabled) { background: var(--ink); border-color: var(--ink); color: var(--paper); }
  button.plain { background: none; border-color: transparent; }
  button:disabled, select:disabled, input:disabled { color: var(--soft); border-style: dashed; cursor: default; }
  button.primary:disabled { background: var(--sheet); border-color: var(--edge); }
  input[type='range'], input[type='radio'], input[type='checkbox'] { accent-color: var(--accent); }
  a { color: var(--accent); }
  :focus-visible { outline: 3px solid var(--focus); outline-offset: 2px; }
  h1, h2, h3 { margin: 0 0 0.5em; line-height: 1.2; text-wrap: balance; }
  h1 { font-size: 1.5rem; }
  h2 { font-size: var(--text-large); }
  h3 { font-size: 1rem; }
  @media print { button { display: none; } }
`;

/** For text that is heard but not seen. */
export const hiddenStyles = css`
  .unseen { position: absolute; width: 1px; height: 1px; margin: -1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
`;
