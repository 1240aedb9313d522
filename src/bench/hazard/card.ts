import { css, html, nothing } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import { LiveElement } from '../../store/live-element.ts';
import { CAUTIONS, type CautionId } from '../../ui/safety/cautions.ts';
import type { Dialog } from '../../ui/dialog.ts';
import { pictogram } from '../../ui/safety/pictograms.ts';
import { controlStyles } from '../../ui/styles.ts';
import type { Hazards } from './hazards.ts';
import '../../ui/dialog.ts';
import '../../ui/safety/all-cautions.ts';

/** Lines of a caution that the card shows: they fit beside the read-outs on a screen of 1280 x 720. */
const FIRST = 2;

/** The caution that is open, in short; all of it is one press away. */
@customElement('bf-hazard-card')
export class HazardCard extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { --target: 1.75rem; display: block; font-size: 0.8125rem; line-height: 1.25; pointer-events: auto; }
      .note { padding: var(--gap-small); background: var(--caution-paper); color: var(--caution-ink); border: 1px solid var(--caution-edge); border-radius: var(--round); }
      .head { display: flex; gap: var(--gap-small); align-items: center; margin: 0; font-weight: 600; }
      .head svg { flex: none; width: 1.6rem; height: 1.6rem; }
      ul { margin: 0.25rem 0; padding: 0; list-style: none; display: grid; gap: 0.2rem; }
      .foot { display: flex; gap: var(--gap-small); justify-content: flex-end; }
      .foot button { padding: 0 0.5em; }
      @media (pointer: coarse) { :host { --target: 2.75rem; } }
      @media print { :host { display: none; } }
    `,
  ];

  @property({ attribute: false }) hazards: Hazards | undefined;
  @query('bf-dialog') private dialog!: Dialog;
  /** The caution that was last asked for in full. */
  private asked: CautionId | undefined;

  override render() {
    const { hazards, asked } = this;
    return html`${hazards?.open ? this.short(hazards, hazards.open) : nothing}
      <bf-dialog heading="Caution" @bf-close=${() => hazards?.close()}>${asked ? html`<bf-all-cautions .topics=${[asked]}></bf-all-cautions>` : nothing}</bf-dialog>`;
  }

  private short(hazards: Hazards, topic: CautionId) {
    const { heading, lines, pictogram: sign } = CAUTIONS[topic];
    return html`<div class="note" role="group" aria-label="Caution: ${heading}">
      <p class="head">${pictogram(sign)}${heading}</p>
      <ul>${lines.slice(0, FIRST).map((line) => html`<li>${line}</li>`)}</ul>
      <div class="foot"><button type="button" class="plain" @click=${() => this.whole(hazards, topic)}>In full</button><button type="button" @click=${() => hazards.close()}>Hide</button></div>
    </div>`;
  }

  private whole(hazards: Hazards, topic: CautionId) {
    hazards.keep();
    this.asked = topic;
    this.requestUpdate();
    void this.dialog.show();
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-hazard-card': HazardCard;
  }
}
