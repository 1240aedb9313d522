import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { LiveElement } from '../../store/live-element.ts';
import type { Session } from '../../store/session.ts';
import { controlStyles } from '../../ui/styles.ts';
import { beganEmpty } from '../packing/empty.ts';

/** Before anything is done: another column, a run to watch, a column to break. */
@customElement('bf-ways-in')
export class WaysIn extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; --target: 1.9rem; font-size: 0.8125rem; line-height: 1.35; }
      :host(:not([data-shown])) { display: none; }
      p { margin: 0 0 var(--gap-small); }
      .row { display: flex; flex-wrap: wrap; gap: 0.2rem; align-items: center; justify-content: space-between; }
      button { padding: 0 0.3em; white-space: nowrap; }
      a { min-height: var(--target); display: inline-flex; align-items: center; color: var(--accent); }
      @media (pointer: coarse) { :host { --target: 2.75rem; } }
      @media (max-width: 40rem) { p { display: none; } .row { justify-content: space-between; flex-wrap: nowrap; gap: var(--gap-small); } button { white-space: nowrap; } :host { --target: 2.5rem; } .fill { display: none; } }
      @media (max-width: 40rem) and (max-height: 50rem) { :host { --target: 2.1rem; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;

  override willUpdate() {
    const { session } = this;
    this.toggleAttribute('data-shown', session !== undefined && waysLead(session));
  }

  override render() {
    const { session } = this;
    if (!session || !waysLead(session)) return nothing;
    return html`<p>A fresh column. Run it ${session.sees === 'eye' ? 'by eye' : 'yourself'}, or:</p>
      <div class="row">
        <button type="button" @click=${() => this.watch(session)}>Watch one run</button>
        <a href="#faults">Break one</a>
        <button type="button" class="plain" @click=${() => anotherColumn(session)}>New column</button>
        <button type="button" class="plain fill" @click=${() => emptyTube(session)}>Empty tube</button>
      </div>`;
  }

  private async watch(session: Session) {
    await session.watchOne();
    if (!matchMedia('(prefers-reduced-motion: reduce)').matches) session.store.play();
  }
}

/** Nothing is done yet, nothing hidden, and the bed is there. */
function waysLead({ store, mystery, given }: Session): boolean {
  return store.log.length === 0 && !mystery && !given && store.scenario !== undefined && !beganEmpty(store.scenario);
}

/** A fresh bed looks like the one before, so that something has changed has to be said. */
export async function anotherColumn(session: Session): Promise<void> {
  if (await session.freshColumn(seedDrawn())) session.say('Another column is on the bench. No two run quite alike.');
}

/** Emptying is fetched when it is pressed: few begin with it. */
export async function emptyTube(session: Session): Promise<void> {
  const { emptyTube: empty } = await import('../packing/new-bed.ts');
  await empty(session);
}

/** No two tries on the same column, so that a remembered volume does not help. */
export function seedDrawn(): number {
  return crypto.getRandomValues(new Uint32Array(1))[0];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-ways-in': WaysIn;
  }
}
