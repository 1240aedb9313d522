import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { type StoryMoment, storyOf } from '../../../sim/teach/index.ts';
import { LiveElement } from '../../store/live-element.ts';
import type { Session } from '../../store/session.ts';
import { announce } from '../../ui/announce.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import { captionOf } from './caption.ts';
import { pacesOf } from './pace.ts';

/** Model time after a moment at which it counts as reached, min. */
const REACHED_MIN = 1e-6;

/**
 * One run told in captions, in the place of the task: what has just happened, and the ways to pause, go to the next moment, or stop
 * watching. The figures are those of this very run.
 *
 * @slot debrief - the way to the debrief, at the end
 * @fires bf-own - the reader wants to run a column
 */
@customElement('bf-watch')
export class WatchedRun extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { --target: 2.25rem; display: grid; gap: var(--gap-small); font-size: 1rem; line-height: 1.4; align-content: start; }
      h2 { margin: 0; font-size: 1rem; }
      p { margin: 0; }
      .caption { min-height: 8.6em; padding: var(--gap-small); border-left: 4px solid var(--accent); background: var(--wash); }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); }
      .row button { flex: 1 1 auto; }
      .count { color: var(--soft); font-size: var(--text-small); }
      @media (pointer: coarse) { :host { --target: 2.75rem; } }
      @media (max-width: 40rem) { h2, .count { display: none; } :host { font-size: 0.8125rem; line-height: 1.25; gap: 0.25rem; } .caption { height: 4rem; min-height: 0; overflow-y: auto; padding: 0 var(--gap-small); } .row { flex-wrap: nowrap; } .row button { padding: 0 0.4em; white-space: nowrap; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  private moments: readonly StoryMoment[] = [];
  private paces: readonly number[] = [];
  private of: unknown;
  /** The moment that was told last. */
  private told = -1;

  override willUpdate() {
    const { store, targets } = this.session ?? {};
    if (!store?.plan || !store.scenario || !targets) return;
    if (this.of !== store.plan) {
      this.of = store.plan;
      this.moments = storyOf(store.scenario, store.plan, targets);
      this.paces = pacesOf(this.moments.map(({ time_min }) => time_min));
      this.told = -1;
    }
    const at = this.at();
    if (at === this.told) return;
    this.told = at;
    const moment = this.moments[at];
    if (moment) announce(this, captionOf(moment, store.scenario));
    const pace = this.paces[at];
    if (pace !== undefined) queueMicrotask(() => store.setSpeed(Math.round(pace)));
  }

  override render() {
    const { store } = this.session ?? {};
    const moment = this.moments[this.told];
    if (!store?.scenario) return nothing;
    const last = this.told >= this.moments.length - 1;
    return html`<h2>Watching one run</h2>
      <p class="caption">${moment ? captionOf(moment, store.scenario) : ''}</p>
      <p class="count">${this.told + 1} of ${this.moments.length}</p>
      <div class="row">
        ${last ? nothing : html`<button type="button" @click=${this.flip}>${store.playing ? 'Pause' : 'Go on'}</button><button type="button" @click=${this.next}>Next</button>`}
        <button type="button" class=${last ? 'primary' : ''} @click=${this.own}>${last ? 'Now run one yourself' : 'Run one yourself'}</button>
        ${last ? html`<slot name="debrief"></slot>` : nothing}
      </div>`;
  }

  private at(): number {
    const { now = 0 } = this.session?.store ?? {};
    return this.moments.findLastIndex(({ time_min }) => time_min <= now + REACHED_MIN);
  }

  private readonly flip = () => {
    const { store } = this.session ?? {};
    if (store?.playing) store.pause();
    else store?.play();
  };

  private readonly next = async () => {
    const { store } = this.session ?? {};
    const next = this.moments[this.told + 1];
    if (store && next) await store.seek(next.time_min);
  };

  private readonly own = () => this.dispatchEvent(new CustomEvent('bf-own', { bubbles: true, composed: true }));
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-watch': WatchedRun;
  }
}
