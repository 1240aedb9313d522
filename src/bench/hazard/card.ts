import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { LiveElement } from '../../store/live-element.ts';
import { controlStyles } from '../../ui/styles.ts';
import type { Hazards } from './hazards.ts';
import '../../ui/safety/caution.ts';

/** The caution that is open. */
@customElement('bf-hazard-card')
export class HazardCard extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; font-size: var(--text-small); pointer-events: auto; }
      @media print { :host { display: none; } }
    `,
  ];

  @property({ attribute: false }) hazards: Hazards | undefined;

  override render() {
    const { hazards } = this;
    return hazards?.open ? html`<bf-caution .topic=${hazards.open} @bf-caution-read=${() => hazards.close()}></bf-caution>` : nothing;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-hazard-card': HazardCard;
  }
}
