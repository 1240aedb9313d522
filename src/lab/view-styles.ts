import { css } from 'lit';

/** Editor and pictures side by side; the pictures stay in sight while the editor is scrolled. On a phone they follow it. */
export const viewStyles = css`
  :host { display: block; }
  h1 { margin: 0 0 var(--gap-small); }
  .named { min-width: 0; }
  .named p { margin: 0 0 var(--gap-small); color: var(--soft); font-size: var(--text-small); overflow-wrap: anywhere; }
  .two { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap-large); align-items: start; }
  .pictures { min-width: 0; }
  .section { margin: 0; border-top: 1px solid var(--rule); }
  .section:last-of-type { border-bottom: 1px solid var(--rule); }
  summary { flex-wrap: wrap; color: var(--ink); }
  .title { font-weight: 600; }
  .brief { color: var(--soft); font-size: var(--text-small); min-width: 0; overflow-wrap: anywhere; }
  .wrong { color: var(--problem-ink); font-weight: 600; font-size: var(--text-small); }
  .inside { padding: 0 0 var(--gap) 1.25rem; }
  .bench { margin: 0; color: var(--soft); font-size: var(--text-small); }
  .fits, .misfits { margin: 0 0 var(--gap-small); font-size: var(--text-small); }
  .fits { color: var(--good-ink); }
  .misfits { padding: var(--gap-small); border: 1px solid var(--problem-ink); border-radius: var(--round); }
  .misfits p, .misfits ul { margin: 0; padding: 0; list-style: none; }
  .misfits button { font-weight: 600; padding: 0 0.25em; min-height: 1.75rem; text-decoration: underline; }
  @media (min-width: 60rem) {
    :host { display: grid; grid-template-rows: auto minmax(0, 1fr); height: calc(100dvh - var(--bar, 2.5rem) - 2px - 2 * var(--gap)); min-height: 38rem; margin-bottom: calc(var(--gap) - var(--gap-large)); }
    .top { display: flex; gap: 0 var(--gap-large); align-items: start; }
    .top h1 { white-space: nowrap; line-height: var(--target); margin: 0; }
    .named { flex: none; max-width: 17rem; }
    .named p { white-space: nowrap; overflow: hidden; text-overflow: ellipsis; }
    .two { grid-template-columns: minmax(22rem, 5fr) minmax(0, 7fr); grid-template-rows: minmax(0, 1fr); align-items: stretch; gap: var(--gap); }
    .editor { position: relative; overflow-y: auto; padding-right: var(--gap-small); scrollbar-gutter: stable; }
  }
  /* Words for screen readers are placed in what scrolls: else they make the whole page as long as it. */
  .card, .calibrate { position: relative; overflow-y: auto; min-height: 0; }
  .back { margin: 0 0 var(--gap-small); }
  .card .row { display: flex; gap: var(--gap-small); margin-bottom: var(--gap-small); }
  @media print {
    :host { display: block; height: auto; min-height: 0; }
    .top, .two, .calibrate, .card .row { display: none; }
    .card, .card[hidden] { display: block; overflow: visible; }
  }
  @media (max-width: 40rem) { .inside { padding-left: 0; } }
`;
