import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { LIMITS } from '../../../sim/terms/limits.ts';
import type { Log, Scenario } from '../../../sim/terms/types.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import { LiveElement } from '../../store/live-element.ts';
import { emit } from '../../ui/emit.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import '../../ui/number.ts';
import { portionsIn } from './empty.ts';
import { dripWords, firstWords, isFull, look, offered_mL, type Packing, portion, standsWords } from './filling.ts';
import { packingStyles } from './packing-styles.ts';

/**
 * Filling an empty tube: pour slurry, see how high the resin stands once it has settled, add to it, look at the drip.
 *
 * @fires bf-carry-out - {actions} to be taken one after the other
 * @fires bf-fresh - another column is wanted
 */
@customElement('bf-packing')
export class PackingPanel extends LiveElement {
  static override styles = [controlStyles, hiddenStyles, packingStyles];

  @property({ attribute: false }) store: ColumnStore | undefined;
  @state() private resin_mL: number | undefined;
  @state() private pour: Packing['pour'] = 'once';
  @state() private into: Packing['into'] = 'liquid';
  @state() private tapped = true;

  override render() {
    const { scenario, moment } = this.store ?? {};
    if (!scenario || !moment) return nothing;
    const another = html`<button type="button" @click=${() => emit(this, 'bf-fresh', undefined)}>Another column</button>`;
    if (moment.delivered_mL > 0) return html`<p role="status">${dripWords(scenario, moment)}</p><div class="row">${another}</div>`;
    const begun = portionsIn(moment) > 0;
    return html`<p role="status">${standsWords(scenario, moment)}${begun ? '' : ` ${firstWords(scenario, moment)}`}</p>
      <div class="row">
        <bf-number .of=${LIMITS['pack.resin_mL']} .value=${this.volume(scenario)} @bf-change=${this.takeVolume}></bf-number>
        ${this.choices(begun)}
      </div>
      <div class="row">${this.presses(begun, begun && moment.settling_min === 0 && isFull(scenario, moment))}${another}</div>`;
  }

  /** What is next stands first: slurry, then the drip once the resin is high enough. */
  private presses(begun: boolean, full: boolean) {
    const { playing } = this.store ?? {};
    const add = html`<button type="button" class=${full ? '' : 'primary'} ?disabled=${playing} @click=${this.fill}>${begun ? 'Add slurry' : 'Pour slurry'}</button>`;
    const look = begun
      ? html`<button type="button" class=${full ? 'primary' : ''} ?disabled=${playing} @click=${this.look}>Look at the drip</button>`
      : nothing;
    return full ? [look, add] : [add, look];
  }

  private choices(begun: boolean) {
    return html`<select aria-label="how it is poured" @change=${this.takePour}>
        <option value="once" .selected=${this.pour !== 'spoonfuls'}>in one go</option>
        <option value="spoonfuls" .selected=${this.pour === 'spoonfuls'}>in spoonfuls</option>
      </select>
      ${begun ? nothing : this.ground()}
      <label class="check"><input type="checkbox" .checked=${this.tapped} @change=${this.takeTapped} />tapped</label>`;
  }

  private ground() {
    return html`<select aria-label="what it is poured onto" @change=${this.takeInto}>
      <option value="liquid" .selected=${this.into !== 'glass'}>into liquid</option>
      <option value="glass" .selected=${this.into === 'glass'}>onto dry glass</option>
    </select>`;
  }

  /** Slurry until the resin is nearly as high as wanted, then the drip. */
  next() {
    const { scenario, moment } = this.store ?? {};
    if (!scenario || !moment) return;
    if (isFull(scenario, moment)) this.look();
    else this.fill();
  }

  private volume(scenario: Scenario): number {
    const { moment } = this.store ?? {};
    return this.resin_mL ?? (moment ? offered_mL(scenario, moment) : 0);
  }

  private fill() {
    const { scenario, moment } = this.store ?? {};
    if (!scenario || !moment) return;
    const into = portionsIn(moment) > 0 ? 'liquid' : this.into;
    const actions = portion(scenario, { do: 'pack', resin_mL: this.volume(scenario), pour: this.pour, into, tapped: this.tapped });
    this.resin_mL = undefined;
    this.carryOut(actions);
  }

  private look() {
    this.carryOut(look());
  }

  private carryOut(actions: Log) {
    emit<{ actions: Log }>(this, 'bf-carry-out', { actions });
  }

  private takeVolume(event: CustomEvent<{ value: number }>) {
    this.resin_mL = event.detail.value;
  }

  private takePour(event: Event & { target: HTMLSelectElement }) {
    this.pour = event.target.value === 'spoonfuls' ? 'spoonfuls' : 'once';
  }

  private takeInto(event: Event & { target: HTMLSelectElement }) {
    this.into = event.target.value === 'glass' ? 'glass' : 'liquid';
  }

  private takeTapped(event: Event & { target: HTMLInputElement }) {
    this.tapped = event.target.checked;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-packing': PackingPanel;
  }
}
