import { css } from 'lit';

/** Layout of the page frame, from a 360 px phone to a projector: one slim line, on a phone a second one for the views. */
export const shellStyles = css`
  :host { --bar: 2.5rem; display: flex; flex-direction: column; min-height: 100dvh; }
  header { display: flex; flex-wrap: wrap; align-items: center; gap: 0 var(--gap); padding: 0 clamp(0.5rem, 1.5vw, 1.25rem);
    border-bottom: 1px solid var(--rule); --target: 2rem; font-size: var(--text-small); }
  .name { margin: 0; font-weight: 700; font-size: var(--text-large); line-height: var(--bar); }
  .name a { color: inherit; text-decoration: none; }
  .run { flex: 1 1 6rem; min-width: 0; display: flex; align-items: center; }
  .scenario { margin: 0; color: var(--soft); overflow: hidden; text-overflow: ellipsis; white-space: nowrap; }
  .where { flex: none; color: var(--soft); }
  /* Where another scenario is worked on, the one in the header is named as that of the bench. */
  :host(:not([data-view='lab'])) .where { display: none; }
  nav { flex: 1 0 100%; min-width: 0; order: 3; }
  nav ul { display: flex; justify-content: space-between; margin: 0; padding: 0; list-style: none; }
  nav a { display: flex; align-items: center; min-height: var(--target); padding: 0 0.15rem; color: var(--soft); text-decoration: none; border-bottom: 3px solid transparent; }
  nav a:hover { color: var(--ink); }
  nav a[aria-current] { color: var(--ink); font-weight: 600; border-bottom-color: var(--accent); }
  .more { order: 2; min-width: 2.25rem; font-size: 1.25rem; line-height: 1; }
  .menu { position: fixed; inset: calc(var(--bar) + 0.25rem) 0.5rem auto auto; min-width: 14rem; margin: 0; padding: var(--gap-small);
    border: 1px solid var(--edge); border-radius: var(--round); background: var(--paper); color: var(--ink); --target: 2.25rem; }
  .menu:popover-open { display: grid; }
  .menu button { text-align: left; }
  .menu label { display: flex; justify-content: space-between; gap: var(--gap); align-items: center; padding: 0 0.75em; }
  main { flex: 1 1 auto; min-width: 0; padding: var(--gap) clamp(0.75rem, 2vw, 1.5rem) var(--gap-large); }
  main:focus { outline: none; }
  main:focus-visible { outline: none; }
  .skip { position: absolute; left: var(--gap); top: -4rem; z-index: 2; background: var(--ink); color: var(--paper); }
  .skip:focus { top: var(--gap-small); }
  bf-message-line { position: fixed; left: 50%; translate: -50%; top: calc(var(--bar) + 0.25rem); z-index: 3; width: min(40rem, calc(100vw - 1rem)); }
  @media (max-width: 40rem) { .where { display: none; } }
  @media (max-width: 24rem) { nav a { padding: 0; font-size: 0.78rem; } }
  @media (pointer: coarse) { header, .menu { --target: 2.75rem; } }
  @media (max-width: 40rem) and (max-height: 50rem) { :host { --bar: 2.25rem; } header { --target: var(--bar); } }
  /* What the work-up holds at the top of a telephone stands below the views, which stay. */
  @media (max-width: 40rem) { :host([data-view='workup']) header { position: sticky; top: -2.75rem; z-index: 2; background: var(--paper); } }
  @media (min-width: 60rem) {
    header { flex-wrap: nowrap; min-height: var(--bar); }
    nav { flex: 0 0 auto; order: 1; }
    nav ul { gap: var(--gap-large); }
    nav a { min-height: var(--bar); }
  }
  @media print {
    .more, .menu, nav, .skip, .run { display: none; }
    :host { display: block; }
    main { padding: 0; }
  }
`;
