import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { LABEL_MAX } from '../../../sim/input/index.ts';
import { LIMITS } from '../../../sim/terms/limits.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import { LiveElement } from '../../store/live-element.ts';
import { emit } from '../../ui/emit.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import '../../ui/number.ts';
import '../../ui/safety/caution.ts';

/**
 * The clamp by percent, and a receiver with a name of your choice.
 *
 * @fires bf-act - {action} to be taken
 */
@customElement('bf-another')
export class AnotherControl extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: grid; gap: var(--gap-small); }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: end; }
      input { width: 8rem; }
      label { color: var(--soft); display: grid; }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;
  @state() private label = '';

  override render() {
    const { moment } = this.store ?? {};
    if (!moment) return nothing;
    return html`<bf-number slider .of=${LIMITS['clamp.open_percent']} .value=${Math.round(moment.clampOpen * 100)} @bf-change=${this.turn}></bf-number>
      <div class="row">
        <label>another receiver <input type="text" maxlength=${LABEL_MAX} .value=${this.label} @input=${this.type} @keydown=${this.key} /></label>
        <button type="button" ?disabled=${this.label.trim() === ''} @click=${this.add}>Put under</button>
      </div>
      <bf-caution topic="column" read></bf-caution>`;
  }

  private turn(event: CustomEvent<{ value: number }>) {
    emit(this, 'bf-act', { action: { do: 'clamp', open_percent: event.detail.value } });
  }

  private type(event: InputEvent & { target: HTMLInputElement }) {
    this.label = event.target.value;
  }

  private key(event: KeyboardEvent) {
    if (event.key === 'Enter') this.add();
  }

  private add() {
    const label = this.label.trim();
    if (label === '') return;
    this.label = '';
    emit(this, 'bf-act', { action: { do: 'receiver', label } });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-another': AnotherControl;
  }
}
