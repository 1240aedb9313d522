import { css } from 'lit';

/** The white card behind the glass stays white in the dark: colours of liquids are those seen against it. */
export const glassStyles = css`
  :host { display: grid; grid-template-rows: minmax(0, 1fr) auto; width: 100%; height: 100%; gap: var(--gap-small); font-size: var(--text-small); }
  .stage { position: relative; min-height: 0; overflow: hidden; border-radius: var(--round); background: var(--card); color: #18202c; forced-color-adjust: none; }
  canvas, .hand, .instead { position: absolute; inset: 0; width: 100%; height: 100%; }
  .instead { display: grid; grid-template-rows: minmax(0, 1fr) auto; background: var(--paper); color: var(--ink); }
  .hand { cursor: grab; touch-action: pan-y; }
  .hand:active { cursor: grabbing; }
  .hand:focus-visible { outline-offset: -3px; border-radius: var(--round); }
  .words { position: absolute; inset: 0; pointer-events: none; color: #525b68; line-height: 1.1; }
  .words > * { position: absolute; white-space: nowrap; }
  .tick { transform: translate(-100%, -50%); font-size: 0.8em; }
  .tick::after { content: ''; display: inline-block; width: 5px; margin-left: 3px; border-top: 1px solid #838a94; vertical-align: middle; }
  .beside { transform: translate(0, -50%); }
  .from { left: 0.6em; }
  .strong { color: #18202c; font-weight: 600; }
  .stronger { right: 0.5em; top: 0.4em; padding: 0.1em 0.4em; border: 1px solid #a8700a; border-radius: var(--round); background: #fff5e0; color: #4a3205; }
  .depth { transform: translate(0, -50%); padding: 0 0.25em; background: #ffffff; color: #18202c; border-radius: 2px; }
  .vessel { transform: translate(-50%, 0); text-align: center; overflow: hidden; text-overflow: ellipsis; }
  .vessel span { display: block; overflow: hidden; text-overflow: ellipsis; }
  .under span:first-child { color: #18202c; font-weight: 600; }
  .aside { font-size: 0.85em; }
  .more { right: 0.4em; }
  .look { display: flex; align-items: center; gap: 0.25rem; }
  .look span { color: var(--soft); line-height: 1.1; }
  .look button { flex: 1 1 0; padding: 0 0.15em; }
  .look button[aria-pressed='true'] { background: var(--ink); border-color: var(--ink); color: var(--paper); font-weight: 600; }
  .note { margin: 0; color: var(--soft); }
  @media print { :host { display: none; } }
`;
