import { css } from 'lit';

/** The list beside the figure; on a phone the step in hand alone, in a place of fixed height. */
export const taskStyles = css`
  :host { --target: 2rem; display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap-small); align-content: start; font-size: var(--text-small); line-height: 1.3; }
  h2 { font-size: 1rem; margin: 0; }
  p { margin: 0; }
  .purpose { color: var(--soft); font-size: 0.8125rem; line-height: 1.2; margin: 0.125rem 0 var(--gap-small); }
  .purpose.short { display: none; }
  ol { margin: 0; padding: 0; list-style: none; display: grid; gap: 2px; }
  li { display: grid; grid-template-columns: 1.25em 1fr auto; gap: 0.25rem 0.25rem; align-items: baseline; padding: 0.15rem 0.375rem; border: 1px solid transparent; border-radius: var(--round); align-content: center; }
  /* What can be pressed takes the place of its words, in rows of one height: nothing moves when a step begins or is done. */
  li:not(.now) { min-height: 2rem; padding-block: 0; }
  li.open .what, li.open .amount, li.open .sign { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  li.open { position: relative; padding-inline: 0; }
  li.done { color: var(--soft); }
  li.later, li.missed { color: var(--soft); }
  li.late { color: var(--problem-ink); }
  li.now { background: var(--wash); border-color: var(--accent); font-weight: 600; }
  .amount { white-space: nowrap; font-variant-numeric: tabular-nums; }
  progress { grid-column: 2 / -1; width: 100%; height: 0.375rem; appearance: none; border: 0; border-radius: 3px; background: var(--rule); overflow: hidden; }
  progress::-webkit-progress-bar { background: var(--rule); }
  progress::-webkit-progress-value { background: var(--accent); }
  progress::-moz-progress-bar { background: var(--accent); }
  li button { grid-column: 1 / -1; justify-self: stretch; padding: 0.15rem 0.25em; line-height: 1.2; text-align: center; font-weight: 600; }
  li button[aria-disabled='true'] { background: none; color: var(--soft); border-style: dashed; }
  bf-packing { grid-column: 1 / -1; }
  li.open button { font-weight: 400; }
  .ahead { border-left: 3px solid var(--accent); background: var(--wash); padding: var(--gap-small); min-height: 5.9em; }
  .ahead h2 { font-size: inherit; }
  dl { margin: 0; display: grid; gap: 0.1rem; }
  dl div { display: flex; justify-content: space-between; gap: 0.3em; }
  dt { color: var(--soft); white-space: nowrap; }
  dd { margin: 0; white-space: nowrap; font-weight: 600; font-variant-numeric: tabular-nums; }
  :host([brief]) .ahead { display: none; }
  @media (max-height: 50rem) { .purpose.long { display: none; } .purpose.short { display: block; } }
  /* A projector: everything in sight without scrolling. */
  @media (max-height: 46rem) and (min-width: 62.01rem) { dl { grid-template-columns: auto auto; column-gap: 0.375rem; font-size: 0.75rem; } li.now button { min-height: 2.7rem; } .ahead { padding-block: 0.2rem; min-height: 5.2em; } }
  @media (max-width: 40rem) {
    :host { max-height: 7.5rem; overflow: hidden; grid-template-rows: auto 1fr; }
    .purpose.short { display: block; position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
    h2, .purpose.long, .ahead, li.done, li.later, li.missed { display: none; }
    li, li:not(.now) { padding-block: 0.125rem; min-height: 0; }
    :host([data-filling]) { max-height: none; }
    :host([data-filling]) li.open { grid-column: 1 / -1; }
    :host([data-filling]) li.filling.now ~ li { display: none; }
    ol { grid-template-columns: 1fr 1fr; }
    li.now { grid-column: 1 / -1; }
    li.open button { line-height: 1.05; padding-block: 0.1rem; }
    dl { display: none; }
    li.now .what::before { content: var(--aliquot); }
  }
  @media print { button { display: none; } }
`;
