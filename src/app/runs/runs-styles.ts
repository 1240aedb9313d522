import { css } from 'lit';

/** Cards of kept runs, side by side where there is room. */
export const runsStyles = css`
  bf-dialog { --dialog-width: 60rem; }
  form { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: end; margin-bottom: var(--gap); }
  form label { display: grid; flex: 1 1 12rem; font-size: var(--text-small); color: var(--soft); }
  .runs { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 16rem), 1fr)); gap: var(--gap); margin: 0; padding: 0; list-style: none; }
  li { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap-small); align-content: start; padding: var(--gap-small) var(--gap) var(--gap);
    border: 1px solid var(--rule); border-radius: var(--round); background: var(--sheet); }
  li.wide { grid-column: 1 / -1; }
  li form { margin: 0; }
  h3 { margin: 0; overflow-wrap: anywhere; }
  p { margin: 0; }
  .soft { color: var(--soft); font-size: var(--text-small); }
  .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: center; }
  .row button { padding: 0 0.6em; font-size: var(--text-small); }
  .picture { display: block; width: 100%; height: auto; aspect-ratio: 220 / 104; }
  .compared { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 20rem), 1fr)); gap: var(--gap) var(--gap-large); align-items: start; }
  .picture path, .picture rect, .picture line { vector-effect: non-scaling-stroke; }
  .bed { fill: var(--paper); stroke: var(--edge); stroke-width: 0.75; }
  .band { fill-opacity: 0.6; }
  .base { stroke: var(--edge); }
  .leaving { fill: none; stroke-width: 1.75; }
  .beside { fill: none; stroke: var(--ink); stroke-width: 1.25; stroke-dasharray: 1.5 2.5; }
  .kept { fill: var(--accent); }
`;
