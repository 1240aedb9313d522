import { css } from 'lit';

/** Layout of the page frame, from a 360 px phone to a projector. */
export const shellStyles = css`
  :host { display: flex; flex-direction: column; min-height: 100dvh; }
  header { display: flex; flex-wrap: wrap; align-items: center; gap: 0.25rem var(--gap); padding: 0.25rem clamp(0.75rem, 2vw, 1.5rem) 0;
    border-bottom: 1px solid var(--rule); }
  .name { margin: 0; font-weight: 700; font-size: var(--text-large); }
  .name a { color: inherit; text-decoration: none; }
  .scenario { margin: 0; color: var(--soft); font-size: var(--text-small); flex: 1 1 12rem; min-width: 0; }
  .tools { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: center; padding-bottom: 0.25rem; font-size: var(--text-small); }
  .scenario { order: 1; }
  nav { flex: 1 0 100%; min-width: 0; order: 2; }
  .tools { margin-left: auto; }
  nav ul { display: flex; flex-wrap: wrap; gap: 0 var(--gap); margin: 0; padding: 0; list-style: none; }
  nav a { display: flex; align-items: center; min-height: var(--target); color: var(--soft); text-decoration: none; border-bottom: 3px solid transparent; }
  nav a:hover { color: var(--ink); }
  nav a[aria-current] { color: var(--ink); font-weight: 600; border-bottom-color: var(--accent); }
  main { flex: 1 1 auto; min-width: 0; padding: var(--gap) clamp(0.75rem, 2vw, 1.5rem) var(--gap-large); }
  main:focus { outline: none; }
  main:focus-visible { outline: none; }
  .skip { position: absolute; left: var(--gap); top: -4rem; z-index: 2; background: var(--ink); color: var(--paper); }
  .skip:focus { top: var(--gap-small); }
  bf-message-line { position: sticky; bottom: var(--gap-small); z-index: 1; margin: 0 clamp(0.75rem, 2vw, 1.5rem); }
  @media (min-width: 72rem) {
    .scenario { order: 0; }
    nav { flex: 0 0 auto; order: 1; }
    .tools { order: 2; margin-left: 0; }
    nav ul { flex-wrap: nowrap; gap: var(--gap-large); }
  }
  @media print {
    .tools, nav, .skip { display: none; }
    :host { display: block; }
    main { padding: 0; }
  }
`;
