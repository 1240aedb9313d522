import { css } from 'lit';

/** Cards of the coach: a question stands out, an outcome is quieter. */
export const coachStyles = css`
  :host { display: grid; gap: var(--gap); }
  :host([idle]) { display: none; }
  .card { margin: 0; padding: var(--gap); border: 1px solid var(--rule); border-radius: var(--round); background: var(--sheet); display: grid; gap: var(--gap-small); font-size: var(--text-small); }
  .ask, .warn { background: var(--caution-paper); color: var(--caution-ink); border-color: var(--caution-edge); }
  .good { background: var(--good-paper); }
  h2 { margin: 0; font-size: 1rem; }
  h2:focus { outline: none; }
  p { margin: 0; }
  .text { font-size: 1rem; }
  label { display: grid; gap: 0.125rem; }
  select, input[type='text'] { width: 100%; color: var(--ink); }
  .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); }
  .row button:not(.primary) { color: var(--ink); }
  .row .plain { color: inherit; text-decoration: underline; }
  .missing { color: var(--problem-ink); }
  .missing:empty { display: none; }
  dl { margin: 0; display: grid; grid-template-columns: max-content 1fr; gap: 0.125em var(--gap-small); }
  dt { color: var(--soft); }
  dd { margin: 0; }
  section > button { justify-self: start; }
`;
