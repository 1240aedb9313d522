import { css } from 'lit';

/** Layout of the bench: three columns over the strip on a wide page, two on a small one, one on a phone. */
export const viewStyles = css`
  :host { display: block; }
  .bench { --tall: clamp(27rem, 100dvh - 19rem, 46rem); display: grid; gap: var(--gap) var(--gap-large);
    grid-template-columns: minmax(11rem, 15rem) minmax(0, 1fr) minmax(14rem, 17rem); grid-template-areas: 'left figure side' 'strip strip side'; grid-template-rows: auto 1fr; }
  .left { grid-area: left; min-width: 0; height: var(--tall); }
  .left > * { height: 100%; }
  bf-figure { grid-area: figure; min-width: 0; height: var(--tall); }
  .side { grid-area: side; display: grid; gap: var(--gap); align-content: start; min-width: 0; }
  .choices { display: grid; gap: var(--gap-small); justify-items: start; font-size: var(--text-small); }
  .check { display: flex; gap: var(--gap-small); align-items: center; min-height: var(--target); }
  .check input { width: 1.25em; height: 1.25em; margin: 0; }
  .over { margin: 0; display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap); align-items: center; }
  bf-strip { grid-area: strip; border-top: 1px solid var(--rule); padding-top: var(--gap); min-width: 0; }
  @media (max-width: 62rem) {
    .bench { grid-template-columns: minmax(9rem, 12rem) minmax(0, 1fr); grid-template-areas: 'task task' 'left figure' 'coach coach' 'now now' 'over over' 'strip strip'; grid-template-rows: none; }
    .side { display: contents; }
    .side > * { grid-column: 1 / -1; }
    .side > bf-coach { grid-area: coach; }
    .side > .over { grid-area: over; }
    .side > bf-now { grid-area: now; }
    .side > bf-task { grid-area: task; }
  }
  @media (max-width: 40rem) {
    .bench { --tall: 30rem; gap: var(--gap); grid-template-columns: minmax(0, 1fr); grid-template-areas: 'task' 'left' 'figure' 'coach' 'now' 'over' 'strip'; }
    .left { height: 26rem; }
  }
`;
