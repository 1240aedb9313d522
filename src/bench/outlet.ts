import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { LABEL_MAX } from '../../sim/input/log.ts';
import { LIMITS } from '../../sim/terms/limits.ts';
import type { ColumnStore } from '../store/column-store.ts';
import { LiveElement } from '../store/live-element.ts';
import { emit } from '../ui/emit.ts';
import { KeysController } from '../ui/keys.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { sectionStyles } from './section-styles.ts';
import { refusalWords } from './words.ts';
import '../ui/safety/caution.ts';
import '../ui/number.ts';
import '../ui/segmented.ts';

/**
 * What is below the bed: the clamp and the receiver under the tip.
 *
 * @fires bf-act - {action} to be taken
 */
@customElement('bf-outlet')
export class OutletControl extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    sectionStyles,
    css`
      h2 { margin-right: auto; }
      section + section { margin-top: var(--gap); }
      input[type='text'] { width: 8rem; }
      label { color: var(--soft); font-size: var(--text-small); }
      bf-caution { font-size: var(--text-small); }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;
  @state() private label = '';

  constructor() {
    super();
    new KeysController(this, {
      heading: 'Clamp and receiver',
      entries: [
        { key: 'o', does: 'open the clamp fully, or shut it', run: () => this.flip() },
        { key: 'r', does: 'put the next receiver under the tip', run: () => this.next() },
      ],
    });
  }

  override render() {
    const { store } = this;
    if (!store?.scenario || !store.moment) return nothing;
    return html`${this.clamp(store)}${this.receiver(store)}`;
  }

  private clamp(store: ColumnStore) {
    return html`<section aria-labelledby="clamp">
      <div class="row">
        <h2 id="clamp">Clamp</h2>
        <button type="button" @click=${() => this.turn(0)}>Shut</button>
        <button type="button" @click=${() => this.turn(100)}>Open fully</button>
      </div>
      <bf-number slider .of=${LIMITS['clamp.open_percent']} .value=${Math.round((store.moment?.clampOpen ?? 0) * 100)}
        .error=${this.refusal('clamp')} @bf-change=${this.setClamp}></bf-number>
    </section>`;
  }

  private receiver(store: ColumnStore) {
    const labels = receiversOf(store);
    return html`<section aria-labelledby="receiver">
      <h2 id="receiver">Receiver under the tip</h2>
      <bf-segmented label="receiver" label-unseen .choices=${labels.map((value) => ({ value, label: value }))} .value=${underTip(store)} @bf-change=${this.take}></bf-segmented>
      <div class="row">
        <label>another <input type="text" maxlength=${LABEL_MAX} .value=${this.label} @input=${this.type} @keydown=${this.key} /></label>
        <button type="button" ?disabled=${this.label.trim() === ''} @click=${this.add}>Put under</button>
      </div>
      <p class="refused" role="alert">${this.refusal('receiver')}</p>
      <bf-caution topic="column" read></bf-caution>
    </section>`;
  }

  private refusal(kind: 'clamp' | 'receiver'): string {
    const event = this.store?.refusal;
    return event?.action?.do === kind && event.refused ? refusalWords(event.refused) : '';
  }

  private turn(open_percent: number) {
    emit(this, 'bf-act', { action: { do: 'clamp', open_percent } });
  }

  private flip() {
    this.turn((this.store?.moment?.clampOpen ?? 0) > 0 ? 0 : 100);
  }

  private put(label: string) {
    emit(this, 'bf-act', { action: { do: 'receiver', label } });
  }

  private next() {
    const { store } = this;
    if (!store) return;
    const labels = receiversOf(store);
    const next = labels[labels.indexOf(underTip(store)) + 1];
    if (next !== undefined) this.put(next);
  }

  private setClamp(event: CustomEvent<{ value: number }>) {
    this.turn(event.detail.value);
  }

  private take(event: CustomEvent<{ value: string }>) {
    this.put(event.detail.value);
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
    this.put(label);
  }
}

function underTip({ moment }: ColumnStore): string {
  return moment?.results.receivers[moment.receiver]?.label ?? '';
}

/** Labels of the run and then those of the procedure, in order of use. */
function receiversOf({ scenario, moment }: ColumnStore): string[] {
  const planned = (scenario?.procedure ?? []).flatMap((action) => (action.do === 'receiver' ? [action.label] : []));
  return [...new Set([...(moment?.results.receivers.map(({ label }) => label) ?? []), ...planned])];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-outlet': OutletControl;
  }
}
