import { LitElement, css, html } from 'lit';
import { customElement } from 'lit/decorators.js';
import { CAUTIONS, CAUTION_CLOSE } from './cautions.ts';
import { pictogram } from './pictograms.ts';

/** Every caution of the exercise, for the dialog of the menu. */
@customElement('bf-all-cautions')
export class AllCautions extends LitElement {
  static override styles = css`
    h3 { display: flex; gap: var(--gap-small); align-items: center; margin: var(--gap) 0 var(--gap-small); font-size: 1em; }
    ul { margin: 0; padding-left: 1.25em; }
  `;

  override render() {
    return html`<p>${CAUTION_CLOSE}</p>
      ${Object.values(CAUTIONS).map(({ heading, lines, pictogram: sign }) => html`<h3>${pictogram(sign)}${heading}</h3><ul>${lines.map((line) => html`<li>${line}</li>`)}</ul>`)}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-all-cautions': AllCautions;
  }
}
