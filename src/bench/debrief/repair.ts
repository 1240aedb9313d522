import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { LIMITS } from '../../../sim/terms/limits.ts';
import type { Action } from '../../../sim/terms/types.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import { LiveElement } from '../../store/live-element.ts';
import { emit } from '../../ui/emit.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import { sectionStyles } from './section-styles.ts';
import { refusalWords } from '../said/event-words.ts';
import '../../ui/number.ts';

const KINDS: readonly Action['do'][] = ['stir', 'refill-from-below', 'top-up'];

/**
 * What can be done about a spoilt bed. Folded away, for a good run needs none of it.
 *
 * @fires bf-act - {action} to be taken
 */
@customElement('bf-repair')
export class RepairControl extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    sectionStyles,
    css`
      summary { min-height: var(--target); display: flex; align-items: center; cursor: pointer; font-weight: 600; }
      summary::before { content: '▸'; width: 1.25em; font-weight: 400; }
      details[open] summary::before { content: '▾'; }
      .row { align-items: end; margin-bottom: var(--gap-small); }
      label { color: var(--soft); }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;
  @state() private liquid = '';
  @state() private volume_mL = 3;
  @state() private resin_mL = 0.5;

  override willUpdate() {
    const known = Object.keys(this.store?.scenario?.liquids ?? {});
    if (!known.includes(this.liquid)) this.liquid = known[0] ?? '';
  }

  override render() {
    const { store } = this;
    if (!store?.scenario) return nothing;
    return html`<details>
      <summary>Mend the bed</summary>
      <div class="row"><button type="button" @click=${() => this.act({ do: 'stir' })}>Stir up and let it settle</button></div>
      <div class="row">
        <label>from below <select @change=${this.choose}>${Object.entries(store.scenario.liquids).map(([id, { label }]) => html`<option value=${id} ?selected=${id === this.liquid}>${label}</option>`)}</select></label>
        <bf-number .of=${LIMITS['refill-from-below.volume_mL']} .value=${this.volume_mL} @bf-change=${(event: NumberEvent) => {
          this.volume_mL = event.detail.value;
        }}></bf-number>
        <button type="button" @click=${() => this.act({ do: 'refill-from-below', liquid: this.liquid, volume_mL: this.volume_mL })}>Push in</button>
      </div>
      <div class="row">
        <bf-number .of=${LIMITS['top-up.resin_mL']} .value=${this.resin_mL} @bf-change=${(event: NumberEvent) => {
          this.resin_mL = event.detail.value;
        }}></bf-number>
        <button type="button" @click=${() => this.act({ do: 'top-up', resin_mL: this.resin_mL })}>Top up</button>
      </div>
      <p class="refused" role="alert">${this.refusal}</p>
    </details>`;
  }

  private get refusal(): string {
    const event = this.store?.refusal;
    return event?.action && event.refused && KINDS.includes(event.action.do) ? refusalWords(event.refused) : '';
  }

  private choose(event: Event & { target: HTMLSelectElement }) {
    this.liquid = event.target.value;
  }

  private act(action: Action) {
    emit(this, 'bf-act', { action });
  }
}

type NumberEvent = CustomEvent<{ value: number }>;

declare global {
  interface HTMLElementTagNameMap {
    'bf-repair': RepairControl;
  }
}
