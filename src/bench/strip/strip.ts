import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ColumnStore } from '../../store/column-store.ts';
import { LiveElement } from '../../store/live-element.ts';
import { emit } from '../../ui/emit.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import type { Hand } from '../hand.ts';
import './outlet.ts';
import './pour.ts';
import './time.ts';

type Part = 'pour' | 'clamp' | 'receiver' | 'time';

const PARTS: readonly { id: Part; label: string; sign: string }[] = [
  { id: 'pour', label: 'Bottles', sign: '⬇' },
  { id: 'clamp', label: 'Clamp', sign: '⊟' },
  { id: 'receiver', label: 'Receivers', sign: '⊔' },
  { id: 'time', label: 'Time', sign: '▸' },
];

/**
 * The strip that acts: pour, clamp, receiver, time in one row. On a phone one of them at a time, chosen in a bar; the place of
 * all is the same, so that nothing moves.
 *
 * @fires bf-more - everything else is wanted
 */
@customElement('bf-strip')
export class BenchStrip extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { --target: 2.25rem; display: block; font-size: 0.875rem; }
      .parts { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: center; justify-content: space-between; }
      .bar { display: none; }
      @media (min-width: 40.01rem) and (max-width: 84rem) { :host { --pad: 0.55em; } }
      @media (pointer: coarse) { :host { --target: 2.75rem; } }
      @media (max-width: 40rem) {
        .parts { height: 5.9rem; align-content: start; }
        .parts > :not([data-shown]) { display: none; }
        .more { display: none; }
        .bar { display: grid; grid-template-columns: repeat(5, 1fr); gap: 2px; margin-top: 0.25rem; border-top: 1px solid var(--rule); }
        .bar button { border: 0; border-radius: 0; background: none; padding: 0; min-height: 2.75rem; color: var(--soft); line-height: 1.1; border-bottom: 3px solid transparent; }
        .bar button[aria-pressed='true'] { color: var(--ink); font-weight: 600; border-bottom-color: var(--accent); }
        .bar span { display: block; font-size: 1.125rem; }
      }
      @media (max-width: 40rem) and (max-height: 50rem) { :host { --target: 2.25rem; } .parts { height: 4.9rem; } .bar button { min-height: 2.25rem; } .bar span { font-size: 0.875rem; } }
      @media print { :host { display: none; } }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;
  @property({ attribute: false }) hand: Hand | undefined;
  @state() private chosen: Part = 'pour';

  override render() {
    const { store, hand, chosen: part } = this;
    if (!store) return nothing;
    return html`<div class="parts">
        <bf-pour .store=${store} .hand=${hand} ?data-shown=${part === 'pour'}></bf-pour>
        <bf-clamp .store=${store} ?data-shown=${part === 'clamp'}></bf-clamp>
        <bf-receivers .store=${store} ?data-shown=${part === 'receiver'}></bf-receivers>
        <bf-time .store=${store} ?data-shown=${part === 'time'}></bf-time>
        <button type="button" class="more" @click=${this.more}>More</button>
      </div>
      <div class="bar">${PARTS.map(
        ({ id, label, sign }) =>
          html`<button type="button" aria-pressed=${id === part} @click=${() => this.choose(id)}><span aria-hidden="true">${sign}</span>${label}</button>`,
      )}<button type="button" @click=${this.more}><span aria-hidden="true">⋯</span>More</button></div>`;
  }

  /** Shows a part where only one has room. */
  choose(part: Part): void {
    this.chosen = part;
  }

  private more() {
    emit(this, 'bf-more', undefined);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-strip': BenchStrip;
  }
}
