import { LitElement, css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { emit } from './emit.ts';
import { controlStyles, hiddenStyles } from './styles.ts';

export interface Choice {
  readonly value: string;
  readonly label: string;
  readonly disabled?: boolean;
}

/**
 * One of a few choices, all in sight. Radio buttons underneath, so arrow keys and spoken roles are the browser's own.
 *
 * @fires bf-change - {value} when another choice is taken
 */
@customElement('bf-segmented')
export class Segmented extends LitElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; }
      fieldset { margin: 0; padding: 0; border: 0; min-width: 0; }
      legend { padding: 0; font-size: var(--text-small); color: var(--soft); }
      legend.unseen { position: absolute; }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); }
      label { position: relative; display: inline-flex; align-items: center; min-height: var(--target); padding: 0 var(--pad, 0.75em);
        background: var(--sheet); border: 1px solid var(--edge); border-radius: var(--round); cursor: pointer; }
      label:hover { background: var(--wash); }
      input { position: absolute; inset: 0; width: 100%; height: 100%; margin: 0; opacity: 0; cursor: inherit; }
      label:has(input:checked) { background: var(--ink); border-color: var(--ink); color: var(--paper); font-weight: 600; }
      label:has(input:focus-visible) { outline: 3px solid var(--focus); outline-offset: 2px; }
      label:has(input:disabled) { color: var(--soft); background: none; border-style: dashed; cursor: default; }
      @media (forced-colors: active) { label:has(input:checked) { outline: 2px solid Highlight; } }
    `,
  ];

  @property() label = '';
  @property() value = '';
  @property({ attribute: false }) choices: readonly Choice[] = [];
  /** Keeps the label for screen readers only. */
  @property({ type: Boolean, attribute: 'label-unseen' }) labelUnseen = false;

  override render() {
    return html`<fieldset>
      <legend class=${this.labelUnseen ? 'unseen' : ''}>${this.label}</legend>
      <div class="row">${this.choices.map((choice) => this.segment(choice))}</div>
    </fieldset>`;
  }

  private segment(choice: Choice) {
    return html`<label><input type="radio" name="choice" .value=${choice.value} .checked=${choice.value === this.value}
      ?disabled=${choice.disabled ?? false} @change=${this.take} />${choice.label}</label>`;
  }

  private take(event: Event & { target: HTMLInputElement }) {
    this.value = event.target.value;
    emit(this, 'bf-change', { value: this.value });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-segmented': Segmented;
  }
}
