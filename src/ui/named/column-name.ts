import { LitElement, css, html } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { controlStyles } from '../styles.ts';
import { columnName } from '../text/column-name.ts';

/** The short name of a column; one press tells the seed that makes it, and the next hides it again. */
@customElement('bf-column-name')
export class ColumnName extends LitElement {
  static override styles = [
    controlStyles,
    css`
      /* Pressable also where a figure is drawn up over the line that it stands in. */
      :host { white-space: nowrap; position: relative; z-index: 1; }
      button { min-height: 0; padding: 0 0.125em; border: 0; background: none; color: inherit; font: inherit; text-decoration: underline dotted; text-underline-offset: 0.2em; }
      /* Other presses are of no use on paper; this one is the name. */
      @media print { button { display: inline; text-decoration: none; } }
    `,
  ];

  @property({ type: Number }) seed = 0;
  @state() private open = false;

  override render() {
    return html`<button type="button" aria-expanded=${this.open} title="its seed" @click=${this.turn}>${columnName(this.seed)}</button>${this.open ? html`<span> (seed ${this.seed})</span>` : ''}`;
  }

  private turn() {
    this.open = !this.open;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-column-name': ColumnName;
  }
}
