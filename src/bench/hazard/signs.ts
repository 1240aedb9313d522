import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ColumnStore } from '../../store/column-store.ts';
import { LiveElement } from '../../store/live-element.ts';
import { CAUTIONS } from '../../ui/safety/cautions.ts';
import { pictogram } from '../../ui/safety/pictograms.ts';
import { controlStyles } from '../../ui/styles.ts';
import './card.ts';
import type { Hazards } from './hazards.ts';

/** Pictograms of the hazards on this bench; a press opens the caution, another folds it. */
@customElement('bf-hazard')
export class HazardSigns extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; }
      .signs { display: flex; flex-direction: var(--signs, row); gap: 2px; pointer-events: auto; }
      button { min-height: 1.75rem; padding: 0 0.2rem; border-color: transparent; background: none; color: var(--caution-ink); display: flex; align-items: center; }
      button[aria-expanded='true'] { background: var(--caution-paper); border-color: var(--caution-edge); }
      svg { width: 1.35rem; height: 1.35rem; }
      @media (pointer: coarse) { button { min-width: var(--sign, 2.75rem); min-height: 2.75rem; justify-content: center; } }
      @media print { :host { display: none; } }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;
  @property({ attribute: false }) hazards: Hazards | undefined;

  override render() {
    const { store, hazards } = this;
    if (!store || !hazards) return nothing;
    return html`<div class="signs">${hazards
      .topics(store)
      .map(
        (topic) =>
          html`<button type="button" aria-expanded=${topic === hazards.open ? 'true' : 'false'} aria-label="Caution: ${CAUTIONS[topic].heading}" @click=${() => hazards.flip(topic)}>${pictogram(CAUTIONS[topic].pictogram)}</button>`,
      )}</div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-hazard': HazardSigns;
  }
}
