import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { IONS, type IonId } from '../../../sim/terms/ions.ts';
import { LIMITS } from '../../../sim/terms/limits.ts';
import type { Until } from '../../../sim/terms/types.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import { LiveElement } from '../../store/live-element.ts';
import { emit } from '../../ui/emit.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import '../../ui/number.ts';

/**
 * Plays on until something is reached: liquid low above the bed, more volume, a band near the outlet, or time.
 *
 * @fires bf-until - an Until
 */
@customElement('bf-until')
export class RunUntil extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: end; }
      bf-number { flex: 0 1 auto; }
      select { max-width: 100%; }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;
  @state() private what = 'level';
  @state() private level_mm = 1;
  @state() private more_mL = 2;
  @state() private left_cm = 1;
  @state() private wait_min = 5;

  override render() {
    const scenario = this.store?.scenario;
    if (!scenario) return nothing;
    return html`<div class="row">
      <label><span class="unseen">run until</span><select @change=${this.choose}>
        ${this.option('level', 'the liquid is low')}
        ${this.option('more', 'more has dripped')}
        ${this.option('wait', 'time has passed')}
        ${scenario.ions.map((ion) => this.option(`leading-${ion}`, `${IONS[ion].symbol} nears the outlet`))}
      </select></label>
      ${this.amount()}
      <button type="button" @click=${this.start}>Run until</button>
    </div>`;
  }

  private option(value: string, label: string) {
    return html`<option value=${value} ?selected=${this.what === value}>${label}</option>`;
  }

  private amount() {
    if (this.what === 'level') return html`<bf-number .of=${LIMITS['wait.liquid_mm']} .value=${this.level_mm} @bf-change=${this.take}></bf-number>`;
    if (this.what === 'more') return html`<bf-number .of=${LIMITS['wait.volume_mL']} .value=${this.more_mL} @bf-change=${this.take}></bf-number>`;
    if (this.what === 'wait') return html`<bf-number .of=${LIMITS['wait.time_min']} .value=${this.wait_min} @bf-change=${this.take}></bf-number>`;
    return html`<bf-number label="from the outlet" .of=${LIMITS['wait.depth_cm']} .max=${this.length} .value=${this.left_cm} @bf-change=${this.take}></bf-number>`;
  }

  private get length(): number {
    return this.store?.scenario?.values['bed.length_cm'] ?? 7;
  }

  private choose(event: Event & { target: HTMLSelectElement }) {
    this.what = event.target.value;
  }

  private take(event: CustomEvent<{ value: number }>) {
    const { value } = event.detail;
    if (this.what === 'level') this.level_mm = value;
    else if (this.what === 'more') this.more_mL = value;
    else if (this.what === 'wait') this.wait_min = value;
    else this.left_cm = value;
  }

  private start() {
    emit(this, 'bf-until', this.until());
  }

  private until(): Until {
    if (this.what === 'level') return { liquid_mm: this.level_mm };
    if (this.what === 'more') return { more_mL: this.more_mL };
    if (this.what === 'wait') return { elapsed_min: this.wait_min };
    // The options above hold nothing but `leading-` and an ion of the scenario.
    return { ion: this.what.slice('leading-'.length) as IonId, edge: 'leading', depth_cm: this.length - this.left_cm };
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-until': RunUntil;
  }
}
