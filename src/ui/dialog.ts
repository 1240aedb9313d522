import { LitElement, css, html } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import { emit } from './emit.ts';
import { controlStyles } from './styles.ts';

/**
 * A modal dialog on the browser's own `<dialog>`: it keeps the focus inside, closes on Escape and gives the focus back.
 *
 * @slot - what the dialog shows
 * @slot actions - buttons beside Close
 * @fires bf-close - after it has closed, however that was done
 */
@customElement('bf-dialog')
export class Dialog extends LitElement {
  static override styles = [
    controlStyles,
    css`
      dialog { width: min(var(--dialog-width, 40rem), calc(100vw - 2rem)); max-height: calc(100dvh - 2rem); padding: 0; overflow: auto; scroll-padding-bottom: 4rem; border: 1px solid var(--edge);
        border-radius: var(--round); background: var(--paper); color: var(--ink); }
      dialog::backdrop { background: rgb(0 0 0 / 0.45); }
      .inside { padding: var(--gap-large) var(--gap-large) 0; }
      h2 { margin: 0 0 var(--gap); font-size: var(--text-large); }
      /* The way out stays in view, however long what is shown is. */
      .foot { position: sticky; bottom: 0; display: flex; flex-wrap: wrap; gap: var(--gap-small); justify-content: flex-end; margin-top: var(--gap-large); padding: var(--gap-small) 0 var(--gap); background: var(--paper); }
    `,
  ];

  @property() heading = '';
  @query('dialog') private dialog!: HTMLDialogElement;

  override render() {
    return html`<dialog aria-labelledby="heading" @close=${this.closed} @pointerdown=${this.outside}>
      <div class="inside">
        <h2 id="heading">${this.heading}</h2>
        <slot></slot>
        <div class="foot"><slot name="actions"></slot><button type="button" @click=${this.close}>Close</button></div>
      </div>
    </dialog>`;
  }

  /** Opens the dialog over the page. */
  async show(): Promise<void> {
    await this.updateComplete;
    if (!this.dialog.open) this.dialog.showModal();
  }

  close(): void {
    this.dialog.close();
  }

  private outside(event: PointerEvent) {
    if (event.target === this.dialog) this.close();
  }

  private closed() {
    emit(this, 'bf-close', undefined);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-dialog': Dialog;
  }
}
