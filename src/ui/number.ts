import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Limit } from '../../sim/terms/limits.ts';
import { emit } from './emit.ts';
import { SLIDER_STEPS, readNumber, sliderPosition, sliderValue, stepped, type NumberRange } from './text/number-text.ts';
import { controlStyles, hiddenStyles } from './styles.ts';

const PAGE_STEPS = 10;

/**
 * A number with its unit, range and, if wanted, a slider. Decimal point or comma. A value out of range is not passed
 * on: the field keeps what was typed and says what it expected.
 *
 * @fires bf-input - {value} while a slider or arrow key moves
 * @fires bf-change - {value} when the value is settled
 */
@customElement('bf-number')
export class NumberField extends LitElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; max-width: 30rem; }
      :host(.beside) { display: flex; align-items: center; gap: var(--gap-small); }
      label, .range { font-size: var(--text-small); color: var(--soft); }
      .row { display: flex; flex-wrap: wrap; align-items: center; gap: var(--gap-small); }
      input[type='text'] { width: 5.5em; text-align: right; }
      input[type='range'] { flex: 1 1 6rem; min-width: 5rem; min-height: var(--target); margin: 0; }
      input[aria-invalid='true'] { border: 2px solid var(--problem-ink); }
      .error { margin: 0; color: var(--problem-ink); font-size: var(--text-small); overflow-wrap: anywhere; }
      .error:empty { display: none; }
    `,
  ];

  /** Row of the model's table of parameters or limits that gives label, unit, range and step; the properties below override it. */
  @property({ attribute: false }) of: Limit | undefined;
  @property() label = '';
  @property() unit = '';
  @property({ type: Number }) value = 0;
  @property({ type: Number }) min: number | undefined;
  @property({ type: Number }) max: number | undefined;
  @property({ type: Number }) step: number | undefined;
  @property({ type: Boolean }) integer = false;
  @property({ type: Boolean }) disabled = false;
  /** Adds a slider. */
  @property({ type: Boolean }) slider = false;
  /** Logarithmic slider; needs min above 0. */
  @property({ type: Boolean }) log = false;
  /** Shows the allowed range under the label. */
  @property({ type: Boolean, attribute: 'show-range' }) showRange = false;
  /** Error set from outside, shown at the field until the next change. */
  @property() error = '';
  @state() private typed: string | undefined;
  @state() private fault = '';

  override render() {
    const error = this.fault || this.error;
    const { label, unit, min, max } = this.range;
    return html`
      <label for="field">${label}${this.showRange ? html` <span class="range">${min} to ${max} ${unit}</span>` : nothing}</label>
      <div class="row">
        ${this.slider ? this.sliderInput() : nothing}
        <input id="field" type="text" inputmode="decimal" autocomplete="off" spellcheck="false" ?disabled=${this.disabled}
          .value=${this.typed ?? String(this.value)} aria-invalid=${error ? 'true' : 'false'} aria-describedby="unit error"
          @input=${this.type} @change=${this.settleTyped} @keydown=${this.key} />
        <span id="unit">${unit}</span>
      </div>
      <p class="error" id="error" role="alert">${error}</p>`;
  }

  private sliderInput() {
    const { range } = this;
    return html`<input type="range" min="0" max=${SLIDER_STEPS} step="any" ?disabled=${this.disabled} aria-label="${range.label}, slider"
      aria-valuetext="${this.value} ${range.unit}" .value=${String(sliderPosition(this.value, range, this.log))}
      @input=${this.slide} @change=${this.settleSlide} @keydown=${this.key} />`;
  }

  private get range(): NumberRange & { readonly step: number } {
    const { of } = this;
    const step = this.step ?? of?.step ?? 1;
    return {
      label: this.label || (of?.label ?? ''),
      unit: this.unit || (of?.unit ?? ''),
      min: this.min ?? (of?.above ? step : (of?.min ?? 0)),
      max: this.max ?? of?.max ?? 100,
      integer: this.integer || of?.integer === true,
      step,
    };
  }

  private type(event: InputEvent & { target: HTMLInputElement }) {
    this.typed = event.target.value;
  }

  private settleTyped() {
    if (this.typed === undefined) return;
    const reading = readNumber(this.typed, this.range);
    this.fault = reading.ok ? '' : reading.message;
    if (!reading.ok) return;
    this.take(reading.value);
    emit(this, 'bf-change', { value: this.value });
  }

  private slide(event: InputEvent & { target: HTMLInputElement }) {
    this.take(sliderValue(Number(event.target.value), this.range.step, this.range, this.log));
    emit(this, 'bf-input', { value: this.value });
  }

  private settleSlide() {
    emit(this, 'bf-change', { value: this.value });
  }

  private key(event: KeyboardEvent) {
    const steps = { ArrowUp: 1, ArrowDown: -1, PageUp: PAGE_STEPS, PageDown: -PAGE_STEPS }[event.key];
    if (event.key === 'Enter') this.settleTyped();
    if (steps === undefined) return;
    event.preventDefault();
    this.take(stepped(this.value, steps, this.range.step, this.range));
    emit(this, 'bf-input', { value: this.value });
    emit(this, 'bf-change', { value: this.value });
  }

  private take(value: number) {
    this.value = value;
    this.typed = undefined;
    this.fault = '';
    this.error = '';
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-number': NumberField;
  }
}
