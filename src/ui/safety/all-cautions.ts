import { LitElement, css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { CAUTIONS, CAUTION_CLOSE, type CautionId } from './cautions.ts';
import { pictogram } from './pictograms.ts';

/** Cautions of the exercise in full, for a dialog: all of them, or those asked for. */
@customElement('bf-all-cautions')
export class AllCautions extends LitElement {
  static override styles = css`
    h3 { display: flex; gap: var(--gap-small); align-items: center; margin: var(--gap) 0 var(--gap-small); font-size: 1em; }
    ul { margin: 0; padding-left: 1.25em; }
  `;

  @property({ attribute: false }) topics: readonly CautionId[] = Object.keys(CAUTIONS) as CautionId[];

  override render() {
    const asked = this.topics.map((topic) => CAUTIONS[topic]);
    return html`<p>${CAUTION_CLOSE}</p>
      ${asked.map(({ heading, lines, pictogram: sign }) => html`<h3>${pictogram(sign)}${heading}</h3><ul>${lines.map((line) => html`<li>${line}</li>`)}</ul>`)}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-all-cautions': AllCautions;
  }
}
