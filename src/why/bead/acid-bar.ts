import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { CONTROLS } from '../../../sim/terms/controls.ts';
import { LIMITS } from '../../../sim/terms/limits.ts';
import { emit } from '../../ui/emit.ts';
import { fixed } from '../../ui/text/format.ts';
import { controlStyles } from '../../ui/styles.ts';
import { ACID_TOP_M } from '../ion/species-drawing.ts';
import '../../ui/number.ts';
import '../../ui/segmented.ts';

/** Molarities one press away. */
const PRESETS_M = [0, 3, 6, 9, 12] as const;

/**
 * The one handle of the view: HCl molarity, by hand or as it is now at a depth of the bed.
 *
 * @fires bf-molarity - {value} chosen by hand
 * @fires bf-bound - {bound} whether the bed decides
 * @fires bf-depth - {depth_cm} another depth, as the ruler reads it
 */
@customElement('bf-acid-bar')
export class AcidBar extends LitElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap-large); align-items: center; --text-small: 1rem; }
      .value { font-size: clamp(1.4rem, 2.4vw, 2rem); font-weight: 700; white-space: nowrap; min-width: 7.2em; }
      .value small { font-size: 0.6em; font-weight: 400; }
      bf-number { flex: 1 1 20rem; }
      .presets { display: flex; gap: var(--gap-small); }
      .presets button { min-width: var(--target); padding: 0 0.4em; }
      label { display: flex; gap: 0.5em; align-items: center; min-height: var(--target); }
      @media (max-width: 40rem) { .presets { display: none; } :host { gap: 0 var(--gap); } }
      input[type='checkbox'] { width: 1.25em; height: 1.25em; }
    `,
  ];

  @property({ type: Number }) molarity = 9;
  @property({ type: Boolean }) bound = false;
  /** Whether there is a run to take the acid from. */
  @property({ type: Boolean }) available = false;
  /** As the ruler reads it, cm. */
  @property({ type: Number }) depth = 0;
  @property({ type: Number }) length = 7;

  override render() {
    return html`
      <span class="value">${fixed(this.molarity, this.molarity < 0.1 && this.molarity > 0 ? 3 : 1)} <small>mol/L HCl</small></span>
      ${this.bound ? this.depthField() : this.acidField()}
      <label><input type="checkbox" .checked=${this.bound} ?disabled=${!this.available} @change=${this.bind} />the acid at a depth of my bed now</label>`;
  }

  private acidField() {
    return html`<bf-number slider .of=${LIMITS['liquid.HCl_M']} .max=${ACID_TOP_M} .value=${Number(this.molarity.toFixed(2))} @bf-input=${this.take} @bf-change=${this.take}></bf-number>
      <span class="presets">${PRESETS_M.map((value) => html`<button type="button" aria-label="${value} mol/L" @click=${() => emit(this, 'bf-molarity', { value })}>${value}</button>`)}</span>`;
  }

  private depthField() {
    return this.available
      ? html`<bf-number slider .of=${CONTROLS['bed.depth_cm']} .max=${this.length} .value=${Number(this.depth.toFixed(2))} @bf-input=${this.move} @bf-change=${this.move}></bf-number>`
      : nothing;
  }

  private take(event: CustomEvent<{ value: number }>) {
    emit(this, 'bf-molarity', event.detail);
  }

  private move(event: CustomEvent<{ value: number }>) {
    emit(this, 'bf-depth', { depth_cm: event.detail.value });
  }

  private bind(event: Event & { target: HTMLInputElement }) {
    emit(this, 'bf-bound', { bound: event.target.checked });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-acid-bar': AcidBar;
  }
}
