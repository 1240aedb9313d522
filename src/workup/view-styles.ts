import { css } from 'lit';

/** Layout of the work-up bench: flask, controls and curves beside one another on a wide page, one column on a phone, with the flask held at its top. */
export const viewStyles = css`
  :host { display: block; }
  .said { margin: 0 0 var(--gap); border-left: 4px solid var(--good-ink); padding-left: var(--gap); font-weight: 600; }
  h1 { margin-bottom: var(--gap-small); font-size: var(--text-large); }
  .grid { display: grid; gap: var(--gap-large); grid-template-columns: 15rem minmax(20rem, 1fr) minmax(22rem, 1.2fr);
    grid-template-areas: 'hand do from' 'hand do curves' 'titres titres if' 'log log log'; align-items: start; }
  .grid > * { min-width: 0; }
  .grid { grid-template-rows: auto 1fr; }
  .from { grid-area: from; border-bottom: 1px solid var(--rule); padding-bottom: var(--gap); }
  /* The flask stays in sight of the control that adds to it, and within its own area of the grid, which a sticky item of a grid may leave. */
  .hand { grid-area: hand; align-self: stretch; }
  .hand > bf-flask { position: sticky; top: 0; }
  .do { grid-area: do; display: grid; gap: var(--gap); }
  .curves { grid-area: curves; display: grid; gap: var(--gap); }
  .titres { grid-area: titres; }
  .if { grid-area: if; }
  .log { grid-area: log; }
  .order, .last { display: grid; gap: var(--gap-small); }
  .order p, .last p { margin: 0; }
  .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); }
  .soft { color: var(--soft); margin: 0; }
  .last ul { margin: 0; padding-left: 1.25em; }
  .last .caution { background: var(--caution-paper); color: var(--caution-ink); border-radius: var(--round); padding: 0 0.375em; }
  .kind { font-weight: 600; }
  summary { min-height: var(--target); display: flex; align-items: center; cursor: pointer; }
  summary::before { content: '▸'; width: 1.25em; }
  details[open] summary::before { content: '▾'; }
  ol { margin: 0; padding-left: 2em; columns: 28rem auto; column-gap: var(--gap-large); }
  @media (max-width: 68rem) {
    .grid { grid-template-columns: 14rem minmax(0, 1fr); grid-template-areas: 'from from' 'hand do' 'curves curves' 'titres titres' 'if if' 'log log'; }
  }
  @media print { .do, .if { display: none; } }
  @media (max-width: 40rem) {
    .grid { display: flex; flex-direction: column; align-items: stretch; gap: var(--gap); }
    .hand { position: sticky; top: 2.75rem; z-index: 1; background: var(--paper); border-bottom: 1px solid var(--rule); padding-bottom: var(--gap-small); }
    .hand > bf-flask { position: static; }
  }
`;
