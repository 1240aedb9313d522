import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { controlStyles } from '../../ui/styles.ts';

/** Offers a new release that is ready; the page goes on with its own until the reader wants it. */
@customElement('bf-release-note')
export class ReleaseNote extends LitElement {
  static override styles = [
    controlStyles,
    css`
      p { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap); align-items: center; margin: 0; padding: var(--gap-small) clamp(0.75rem, 2vw, 1.5rem); border-bottom: 1px solid var(--rule); }
      @media print { :host { display: none; } }
    `,
  ];

  /** Changes to the new release; the page is then loaded anew. */
  @property({ attribute: false }) change: () => void = () => undefined;
  /** Keeps the run; false where the browser keeps nothing. */
  @property({ attribute: false }) keep: () => boolean = () => false;
  @state() private later = false;
  @state() private unkept = false;

  override render() {
    if (this.later) return nothing;
    return html`<p role="status">${this.unkept ? 'This browser keeps nothing: save the run as a file, then reload.' : 'A new release is ready.'}
      <button type="button" class="primary" @click=${this.take}>${this.unkept ? 'Reload' : 'Save and reload'}</button>
      <button type="button" @click=${this.wait}>Later</button></p>`;
  }

  private take() {
    if (this.unkept || this.keep()) this.change();
    else this.unkept = true;
  }

  private wait() {
    this.later = true;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-release-note': ReleaseNote;
  }
}
