import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { FieldPath } from '../../../sim/terms/fields.ts';
import { LiveElement } from '../../store/live-element.ts';
import { controlStyles } from '../../ui/styles.ts';
import type { LabDraft } from '../draft.ts';
import { foldStyles } from './styles.ts';
import './field.ts';

/** Some parameters in sight and the others behind one press. */
@customElement('bf-lab-fields')
export class LabFields extends LiveElement {
  static override styles = [
    controlStyles,
    foldStyles,
    css`
      .grid { display: grid; grid-template-columns: repeat(auto-fill, minmax(11.5rem, 1fr)); gap: var(--gap-small) var(--gap); align-items: start; }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;
  @property({ attribute: false }) main: readonly FieldPath[] = [];
  @property({ attribute: false }) more: readonly FieldPath[] = [];
  /** What is behind the press. */
  @property() heading = 'More numbers';
  /** Open: from outside too, to lead to a number in it. */
  @property({ type: Boolean }) open = false;

  override render() {
    const { main, more } = this;
    return html`${main.length > 0 ? this.grid(main) : nothing}
      ${
        more.length === 0
          ? nothing
          : html`<details .open=${this.open} @toggle=${this.fold}><summary>${this.heading}</summary>${this.open ? this.grid(more) : nothing}</details>`
      }`;
  }

  private grid(paths: readonly FieldPath[]) {
    return html`<div class="grid">${paths.map((path) => html`<bf-lab-field data-path=${path} .draft=${this.draft} .path=${path}></bf-lab-field>`)}</div>`;
  }

  private fold(event: ToggleEvent & { target: HTMLDetailsElement }) {
    this.open = event.target.open;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-fields': LabFields;
  }
}
