import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ColumnStore } from '../store/column-store.ts';
import { LiveElement } from '../store/live-element.ts';
import './outlet.ts';
import './pour.ts';
import './debrief/repair.ts';
import './time.ts';

/** The bench strip: pour, clamp and receiver, repairs of the bed, model time. */
@customElement('bf-strip')
export class BenchStrip extends LiveElement {
  static override styles = css`
    :host { --target: 2rem; display: grid; gap: var(--gap) var(--gap-large); grid-template-columns: repeat(auto-fit, minmax(min(100%, 17rem), 1fr)); align-items: start; font-size: var(--text-small); }
    @media (pointer: coarse) { :host { --target: 2.75rem; } }
  `;

  @property({ attribute: false }) store: ColumnStore | undefined;

  override render() {
    const { store } = this;
    if (!store) return nothing;
    return html`<bf-pour .store=${store}></bf-pour><div><bf-outlet .store=${store}></bf-outlet><bf-repair .store=${store}></bf-repair></div><bf-time .store=${store}></bf-time>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-strip': BenchStrip;
  }
}
