import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';

/** One line of a read-out. `value` is text already formatted, with its unit. */
export interface Reading {
  readonly label: string;
  readonly value: string;
  /** Smaller print under the value, such as where it comes from. */
  readonly note?: string;
}

/** Labelled values in rows, figures aligned on the right. */
@customElement('bf-readout')
export class Readout extends LitElement {
  static override styles = css`
    :host { display: block; }
    .heading { font-weight: 600; margin: 0 0 var(--gap-small); }
    dl { margin: 0; }
    div { display: flex; flex-wrap: wrap; gap: 0 var(--gap); padding: 0.125em 0; }
    dt { flex: 1 1 auto; color: var(--soft); }
    dd { margin: 0 0 0 auto; text-align: right; }
    .value { white-space: nowrap; }
    .note { flex-basis: 100%; font-size: var(--text-small); color: var(--soft); }
  `;

  @property() heading = '';
  /** Level of the heading in the outline of the page. */
  @property({ type: Number }) level = 2;
  @property({ attribute: false }) readings: readonly Reading[] = [];

  override render() {
    return html`${this.heading ? html`<p class="heading" role="heading" aria-level=${this.level}>${this.heading}</p>` : nothing}<dl>${this.readings.map(
      (reading) =>
        html`<div><dt>${reading.label}</dt><dd class="value">${reading.value}</dd>${
          reading.note ? html`<dd class="note">${reading.note}</dd>` : nothing
        }</div>`,
    )}</dl>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-readout': Readout;
  }
}
