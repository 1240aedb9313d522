import { css } from 'lit';

/**
 * The bench on one screen: glass and figure side by side, the task at the right, one strip at the foot. On a phone glass and
 * figure on top, then the step in hand, then the strip. Only where the window is very low does the page scroll.
 */
export const viewStyles = css`
  :host { display: block; }
  .bench { display: grid; gap: 0 var(--gap); height: calc(100dvh - var(--bar, 2.5rem) - 2px - 2 * var(--gap)); min-height: 36rem; margin: 0 -0.5rem calc(var(--gap) - var(--gap-large));
    grid-template-columns: var(--glass) minmax(0, 1fr) clamp(15rem, 22vw, 20rem); --glass: clamp(12.5rem, 18vw, 20rem); grid-template-rows: minmax(440px, 1fr) auto auto;
    grid-template-areas: 'left figure side' 'say say side' 'strip strip strip'; }
  .bench.eye { --glass: clamp(15rem, 27vw, 26rem); }
  .left { grid-area: left; min-width: 0; min-height: 0; }
  .left > * { height: 100%; }
  .bench.asking { grid-template-columns: var(--glass) 18.5rem minmax(0, 1fr) clamp(15rem, 22vw, 20rem); grid-template-areas: 'left here figure side' 'say say say side' 'strip strip strip strip'; }
  .bench.asking.eye { --glass: clamp(12rem, 20vw, 24rem); }
  .here { grid-area: here; position: relative; min-width: 0; min-height: 0; overflow-y: auto; }
  .run { grid-area: figure; position: relative; min-width: 0; min-height: 0; }
  bf-figure { height: 100%; }
  bf-hazard { position: absolute; inset: 0; pointer-events: none; display: grid; justify-items: end; align-content: start; }
  bf-figure ~ bf-hazard-card { position: absolute; z-index: 5; top: var(--card, 3rem); right: 0; width: 100%; max-height: calc(100% - var(--card, 3rem) - 0.25rem); overflow-y: auto; box-shadow: 0 4px 16px rgb(0 0 0 / 20%); }
  .side { grid-area: side; display: flex; flex-direction: column; gap: var(--gap-small); min-width: 0; min-height: 0; overflow-y: auto; border-left: 1px solid var(--rule); padding-left: var(--gap); }
  .side > * { flex: none; }
  /* A note that has not come yet takes no room. */
  .side > :not(:defined) { display: none; }
  /* Whatever else stands beside the run, the caution is in sight. */
  .side > bf-hazard-card { position: sticky; bottom: 0; }
  .past { margin: 0; display: grid; gap: var(--gap-small); padding: var(--gap-small); background: var(--caution-paper); color: var(--caution-ink); border: 1px solid var(--caution-edge); }
  bf-say-line { grid-area: say; min-width: 0; }
  bf-strip { grid-area: strip; border-top: 1px solid var(--rule); padding-top: var(--gap-small); min-width: 0; }
  @media (max-width: 62rem) { .asking .run { display: none; } }
  @media (max-width: 62rem) and (min-width: 40.01rem) {
    .bench { height: auto; grid-template-columns: var(--glass) minmax(0, 1fr); grid-template-rows: 30rem auto auto auto; grid-template-areas: 'left figure' 'say say' 'strip strip' 'side side'; }
    .bench.asking { grid-template-columns: var(--glass) minmax(0, 1fr); grid-template-areas: 'left here' 'say say' 'strip strip' 'side side'; }
    .side { border-left: 0; padding: var(--gap-small) 0 0; }
  }
  @media (max-width: 40rem) {
    .bench { gap: 0 var(--gap-small); height: calc(100dvh - 2 * var(--bar, 2.5rem) - 1.4rem); min-height: 44rem; margin: 0 -0.5rem -1.5rem; grid-template-columns: var(--glass) minmax(0, 1fr); --glass: 7.25rem;
      grid-template-rows: minmax(440px, 1fr) auto auto auto; grid-template-areas: 'left figure' 'say say' 'side side' 'strip strip'; }
    .bench.asking { grid-template-columns: var(--glass) minmax(0, 1fr); grid-template-areas: 'left here' 'say say' 'side side' 'strip strip'; }
    .bench.asking.eye { --glass: 11.5rem; }
    .bench.eye { --glass: 11.5rem; }
    .side { border: 0; padding: 0; height: 7.2rem; gap: 0.25rem; overflow: hidden; }
    .bench:has(bf-given-note:defined:not([empty])) { height: auto; }
    .bench:has(bf-given-note:defined:not([empty])) .side { height: auto; overflow: visible; }
    .fitted, .past ~ bf-task { display: none; }
    .bench.filling:not(.asking) { --glass: 9.5rem; grid-template-rows: auto minmax(440px, 1fr) auto auto; grid-template-areas: 'left figure' 'left side' 'say say' 'strip strip'; }
    .filling:not(.asking) bf-figure { display: none; }
    .filling:not(.asking) bf-hazard { position: relative; }
    .filling:not(.asking) .side { height: auto; overflow-y: auto; }
    /* Drops stand along the top of a measured figure: the signs go beside its axis. */
    .bench:not(.eye, .filling) { --signs: column; --sign: 2.1rem; --card: 6rem; }
    .bench:not(.eye, .filling) bf-hazard { justify-items: start; }
  }
  /* A low phone: lower rows, so that all of them are on the first screen. */
  @media (max-width: 40rem) and (max-height: 50rem) {
    .bench { height: calc(100dvh - 2 * var(--bar, 2.5rem) - 0.4rem); min-height: 41.2rem; margin-top: -0.5rem; grid-template-rows: minmax(396px, 1fr) auto auto auto; }
    .side { height: 6.75rem; }
    bf-strip { padding-top: 0.25rem; }
  }
`;
