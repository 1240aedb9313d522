import { LitElement, css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { CAUTIONS, CAUTION_CLOSE, type CautionId } from './cautions.ts';
import { emit } from '../emit.ts';
import { pictogram } from './pictograms.ts';
import { controlStyles } from '../styles.ts';

/**
 * A hazard note where the hazard is. Its heading folds it and opens it again at any time; in print it is always whole.
 *
 * @fires bf-caution-read - {topic} when the reader folds it
 */
@customElement('bf-caution')
export class CautionNote extends LitElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; max-width: 48rem; }
      .note { background: var(--caution-paper); color: var(--caution-ink); border: 1px solid var(--caution-edge); border-radius: var(--round); }
      button.head { display: flex; gap: var(--gap-small); align-items: center; width: 100%; padding: var(--gap-small) var(--gap);
        text-align: left; font-weight: 600; line-height: 1.25; background: none; border: 0; color: inherit; }
      button.head:hover:not(:disabled) { background: none; text-decoration: underline; }
      svg { flex: none; }
      .sign { margin-left: auto; font-weight: 400; font-size: var(--text-small); white-space: nowrap; }
      .text { padding: 0 var(--gap) var(--gap); }
      ul { margin: 0 0 var(--gap-small); padding-left: 1.25em; }
      p { margin: 0 0 var(--gap-small); font-size: var(--text-small); }
      @media print { .text[hidden] { display: block; } button.head { display: flex; } .sign { display: none; } }
    `,
  ];

  @property() topic: CautionId = 'acid';
  /** Folded to its heading. */
  @property({ type: Boolean, reflect: true }) read = false;

  override render() {
    const caution = CAUTIONS[this.topic];
    return html`<div class="note" role="group" aria-label="Caution: ${caution.heading}">
      <button type="button" class="head" aria-expanded=${this.read ? 'false' : 'true'} aria-controls="text" @click=${this.fold}>
        ${pictogram(caution.pictogram)}${caution.heading}<span class="sign" aria-hidden="true">${this.read ? 'show' : 'hide'}</span>
      </button>
      <div class="text" id="text" ?hidden=${this.read}>
        <ul>${caution.lines.map((line) => html`<li>${line}</li>`)}</ul>
        <p>${CAUTION_CLOSE}</p>
        <slot></slot>
      </div>
    </div>`;
  }

  private fold() {
    this.read = !this.read;
    if (this.read) emit(this, 'bf-caution-read', { topic: this.topic });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-caution': CautionNote;
  }
}
