import { css } from 'lit';

/** What the parts of this view share. */
export const partStyles = css`
  :host { display: block; min-width: 0; }
  p { margin: 0 0 var(--gap-small); max-width: 68ch; }
  ul, ol { margin: 0 0 var(--gap-small); padding-left: 1.25em; max-width: 68ch; }
  .soft { color: var(--soft); font-size: var(--text-small); }
  .row { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap); align-items: center; }
  .card { border: 1px solid var(--rule); border-radius: var(--round); padding: var(--gap); background: var(--sheet); min-width: 0; }
  dl { display: grid; grid-template-columns: minmax(6rem, auto) 1fr; gap: 0.25em var(--gap); margin: 0 0 var(--gap-small); }
  dt { color: var(--soft); }
  dd { margin: 0; min-width: 0; }
  details > summary { cursor: pointer; min-height: var(--target); display: flex; align-items: center; color: var(--accent); }
  .card + .card { margin-top: var(--gap); }
  .problem { color: var(--problem-ink); }
`;
