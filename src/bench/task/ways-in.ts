import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { LiveElement } from '../../store/live-element.ts';
import type { Session } from '../../store/session.ts';
import { controlStyles } from '../../ui/styles.ts';

/** Real time in which a watched run is over, s; a choice. */
const WATCHED_S = 90;

/** Before anything is done: another column, a run to watch, a column to break. */
@customElement('bf-ways-in')
export class WaysIn extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; --target: 1.9rem; font-size: 0.8125rem; }
      button { padding: 0 0.5em; }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: center; }
      @media (pointer: coarse) { :host { --target: 2.75rem; } }
      @media (max-width: 40rem) { :host { display: none; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;

  override render() {
    const { session } = this;
    if (!session || session.store.log.length > 0 || session.mystery) return nothing;
    return html`<div class="row">
      <button type="button" @click=${() => session.freshColumn(seedDrawn())}>New column</button>
      <button type="button" @click=${() => this.watch(session)}>Watch one run</button>
      <a href="#faults">Break one</a>
    </div>`;
  }

  private async watch({ store }: Session) {
    await store.playProcedure();
    const minutes = store.plan?.logEnd.time_min ?? 0;
    store.setSpeed(Math.max(1, Math.round((minutes * 60) / WATCHED_S)));
    if (matchMedia('(prefers-reduced-motion: reduce)').matches) await store.skip();
  }
}

/** No two tries on the same column, so that watching decides and not a remembered volume. */
function seedDrawn(): number {
  return crypto.getRandomValues(new Uint32Array(1))[0];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-ways-in': WaysIn;
  }
}
