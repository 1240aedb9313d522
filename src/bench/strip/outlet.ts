import { receiverName } from '../../ui/text/receiver-words.ts';
import { html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ColumnStore } from '../../store/column-store.ts';
import { LiveElement } from '../../store/live-element.ts';
import { emit } from '../../ui/emit.ts';
import { KeysController } from '../../ui/keys.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import { receiversOf, underTip } from '../receivers.ts';
import { partStyles } from './part-styles.ts';
import '../../ui/segmented.ts';

const OPEN = 100;
/** A slow drip, %; a choice. */
const SLOW = 25;

/**
 * The clamp: shut, a slow drip, or open; any other opening by dragging it on the glass.
 *
 * @fires bf-act - {action} to be taken
 */
@customElement('bf-clamp')
export class ClampControl extends LiveElement {
  static override styles = [controlStyles, hiddenStyles, partStyles];

  @property({ attribute: false }) store: ColumnStore | undefined;

  constructor() {
    super();
    new KeysController(this, {
      heading: 'Clamp',
      entries: [
        { key: 'o', does: 'open the clamp fully, or shut it', run: () => this.flip() },
        { key: 's', does: 'a slow drip', run: () => this.turn(SLOW) },
      ],
    });
  }

  override render() {
    const open = this.store?.moment?.clampOpen;
    if (open === undefined) return nothing;
    return html`<span class="name" aria-hidden="true">clamp</span>
      <bf-segmented label="clamp" label-unseen .choices=${CLAMP} .value=${CLAMP.find(({ percent }) => percent === Math.round(100 * open))?.value ?? ''} @bf-change=${this.take}></bf-segmented>`;
  }

  private flip() {
    this.turn((this.store?.moment?.clampOpen ?? 0) > 0 ? 0 : OPEN);
  }

  private take(event: CustomEvent<{ value: string }>) {
    this.turn(CLAMP.find(({ value }) => value === event.detail.value)?.percent ?? 0);
  }

  private turn(open_percent: number) {
    emit(this, 'bf-act', { action: { do: 'clamp', open_percent } });
  }
}

/**
 * The receivers that stand ready; one more is asked elsewhere.
 *
 * @fires bf-act - {action} to be taken
 */
@customElement('bf-receivers')
export class ReceiverControl extends LiveElement {
  static override styles = [controlStyles, hiddenStyles, partStyles];

  @property({ attribute: false }) store: ColumnStore | undefined;

  constructor() {
    super();
    new KeysController(this, { heading: 'Receiver', entries: [{ key: 'r', does: 'put the next receiver under the tip', run: () => this.next() }] });
  }

  override render() {
    const { store } = this;
    if (!store?.moment) return nothing;
    return html`<span class="name" aria-hidden="true">receiver</span>
      <bf-segmented label="receiver" label-unseen .choices=${receiversOf(store).map((value) => ({ value, label: receiverName(value) }))} .value=${underTip(store)} @bf-change=${this.take}></bf-segmented>`;
  }

  private next() {
    const { store } = this;
    if (!store) return;
    const labels = receiversOf(store);
    const next = labels[labels.indexOf(underTip(store)) + 1];
    if (next !== undefined) this.put(next);
  }

  private take(event: CustomEvent<{ value: string }>) {
    this.put(event.detail.value);
  }

  private put(label: string) {
    emit(this, 'bf-act', { action: { do: 'receiver', label } });
  }
}

const CLAMP = [
  { value: 'shut', label: 'shut', percent: 0 },
  { value: 'slow', label: 'slow', percent: SLOW },
  { value: 'open', label: 'open', percent: OPEN },
] as const;

declare global {
  interface HTMLElementTagNameMap {
    'bf-clamp': ClampControl;
    'bf-receivers': ReceiverControl;
  }
}
