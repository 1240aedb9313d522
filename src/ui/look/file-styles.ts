import { css } from 'lit';

/**
 * A choice of files as one of our own buttons: a label that looks like one over an input that is there for keys, screen readers and
 * presses but not seen, since what the browser writes beside its own button ("no file chosen") is not true once files were taken in.
 */
export const fileStyles = css`
  label.file { position: relative; display: inline-flex; align-items: center; min-height: var(--target); padding: 0 var(--pad, 0.75em); background: var(--sheet); border: 1px solid var(--edge); border-radius: var(--round); cursor: pointer; }
  label.file:hover { background: var(--wash); }
  label.file:focus-within { outline: 3px solid var(--focus); outline-offset: 2px; }
  label.file input { position: absolute; inset: 0; width: 100%; height: 100%; opacity: 0; cursor: pointer; }
  @media print { label.file { display: none; } }
`;
