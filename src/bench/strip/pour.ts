import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { isSample } from '../../../sim/history/index.ts';
import { LIMITS } from '../../../sim/terms/limits.ts';
import type { Liquid } from '../../../sim/terms/types.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import { isOver } from '../../store/over.ts';
import { LiveElement } from '../../store/live-element.ts';
import { emit } from '../../ui/emit.ts';
import { KeysController } from '../../ui/keys.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import { readNumber } from '../../ui/text/number-text.ts';
import { bottlesInOrder, type Hand } from '../hand.ts';
import { partStyles } from './part-styles.ts';
import '../../ui/segmented.ts';

/**
 * Which bottle, how much, and Pour.
 *
 * @fires bf-act - {action} to be taken
 * @fires bf-say - {text, kind} what cannot be poured
 */
@customElement('bf-pour')
export class PourControl extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    partStyles,
    css`
      .stepper { display: flex; align-items: center; border: 1px solid var(--edge); border-radius: var(--round); background: var(--sheet); }
      .stepper button { border: 0; background: none; min-width: 1.9rem; padding: 0; font-size: 1.125rem; }
      .stepper input { width: 2.75em; padding: 0; border: 0; background: none; text-align: right; }
      .stepper span { padding: 0 0.15em; color: var(--soft); }
      .stepper + button { font-weight: 600; }
      @media (pointer: coarse) { .stepper button { min-width: var(--target); } }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;
  @property({ attribute: false }) hand: Hand | undefined;

  constructor() {
    super();
    new KeysController(this, { heading: 'Pour', entries: [{ key: 'p', does: 'pour the chosen liquid', run: () => this.pour() }] });
  }

  override render() {
    const { store, hand } = this;
    const scenario = store?.scenario;
    if (!hand || !store || !scenario) return nothing;
    const { liquids } = scenario;
    return html`<bf-segmented label="liquid" label-unseen .choices=${bottlesInOrder(scenario).map((value) => ({ value, label: short(liquids[value], liquids) }))}
        .value=${hand.liquid} @bf-change=${this.takeLiquid}></bf-segmented>
      <div class="stepper">
        <button type="button" aria-label="Less to pour" @click=${() => hand.step(-1)}>−</button>
        <input type="text" inputmode="decimal" autocomplete="off" aria-label="volume to pour, mL" .value=${String(hand.volume_mL)} @change=${this.takeVolume} @keydown=${this.key} />
        <span>mL</span>
        <button type="button" aria-label="More to pour" @click=${() => hand.step(1)}>+</button>
      </div>
      <button type="button" class=${isOver(store) || store.moment?.ails.dry ? '' : 'primary'} @click=${this.pour}>Pour</button>`;
  }

  private pour() {
    if (this.hand) emit(this, 'bf-act', { action: this.hand.pour });
  }

  private takeLiquid(event: CustomEvent<{ value: string }>) {
    this.hand?.take(event.detail.value);
  }

  /** Whether what was typed can be poured. */
  private takeVolume(event: Event & { target: HTMLInputElement }): boolean {
    const { hand } = this;
    if (!hand) return false;
    const { max, unit, step } = LIMITS['pour.volume_mL'];
    const reading = readNumber(event.target.value, { label: 'volume', unit, min: step, max, integer: false });
    if (reading.ok) hand.volume_mL = reading.value;
    else emit(this, 'bf-say', { text: reading.message, kind: 'problem' });
    event.target.value = String(hand.volume_mL);
    return reading.ok;
  }

  /** Enter pours what was typed. */
  private key(event: KeyboardEvent & { target: HTMLInputElement }) {
    if (event.key === 'Enter' && this.takeVolume(event)) this.pour();
    const side = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (side !== 1 && side !== -1) return;
    event.preventDefault();
    this.hand?.step(side);
  }
}

/** A sample is called so where there is but one: the name of a liquor is long. */
function short(liquid: Liquid, liquids: Readonly<Record<string, Liquid>>): string {
  return isSample(liquid) && Object.values(liquids).filter(isSample).length === 1 ? 'sample' : liquid.label;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-pour': PourControl;
  }
}
