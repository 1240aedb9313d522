import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Action, Issue, Until } from '../../sim/types.ts';
import { type ColumnStore, SPEEDS } from '../store/column-store.ts';
import { Watch } from '../store/watch.ts';

import { KeysController } from '../ui/keys.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import '../ui/number.ts';
import '../ui/segmented.ts';
import './until.ts';

/** Smallest and usual volume on the pour control, mL. */
const POUR_LEAST = 0.1;
const POUR_USUAL = 5;

/** The bench strip: clamp, pour, receiver, model time. Every action goes to the model, and a refusal is shown at its control. */
@customElement('bf-strip')
export class BenchStrip extends LitElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: grid; gap: var(--gap) var(--gap-large); grid-template-columns: repeat(auto-fit, minmax(min(100%, 17rem), 1fr)); align-items: start; }
      section { display: grid; gap: var(--gap-small); min-width: 0; align-content: start; }
      h2 { font-size: var(--text-small); font-weight: 600; margin: 0; }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: center; }
      .refused { margin: 0; color: var(--problem-ink); font-size: var(--text-small); }
      .refused:empty { display: none; }
      input[type='text'] { width: 9rem; }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;
  @state() private liquid = '';
  @state() private volume_mL = POUR_USUAL;
  @state() private how: 'wall' | 'bed' = 'wall';
  @state() private label = '';
  private readonly watch = new Watch(this);

  constructor() {
    super();
    new KeysController(this, {
      heading: 'Bench',
      entries: [
        { key: ' ', shown: 'Space', does: 'play or pause model time', run: () => this.toggle() },
        { key: 'p', does: 'pour the chosen liquid', run: () => void this.pour() },
        { key: 'o', does: 'open the clamp, or shut it', run: () => void this.flip() },
        { key: 'z', does: 'undo', run: () => void this.store?.undo() },
        { key: 'b', does: 'step back before the last action', run: () => void this.store?.stepBack() },
      ],
    });
  }

  override willUpdate() {
    this.watch.follow(this.store);
    const liquids = Object.keys(this.store?.scenario?.liquids ?? {});
    if (!liquids.includes(this.liquid)) this.liquid = liquids[0] ?? '';
  }

  override render() {
    const { store } = this;
    if (!store?.scenario || !store.moment) return nothing;
    return html`${this.pourControls(store)}${this.clampControls(store)}${this.receiverControls(store)}${this.timeControls(store)}`;
  }

  private pourControls(store: ColumnStore) {
    const liquids = Object.entries(store.scenario?.liquids ?? {}).map(([value, { label }]) => ({ value, label }));
    const free = this.freeVolume(store);
    return html`<section>
      <h2>Pour</h2>
      <bf-segmented label="liquid" label-unseen .choices=${liquids} .value=${this.liquid} @bf-change=${this.takeLiquid}></bf-segmented>
      <bf-number label="volume" unit="mL" slider .min=${POUR_LEAST} .max=${Math.max(POUR_LEAST, Math.floor(free * 10) / 10)} .step=${0.1} .value=${this.volume_mL}
        .error=${this.refused('pour')} @bf-input=${this.takeVolume} @bf-change=${this.takeVolume}></bf-number>
      <div class="row">
        <bf-segmented label="how" label-unseen .value=${this.how} @bf-change=${this.takeHow}
          .choices=${[{ value: 'wall', label: 'down the wall' }, { value: 'bed', label: 'onto the bed' }]}></bf-segmented>
        <button type="button" class="primary" @click=${this.pour}>Pour</button>
      </div>
    </section>`;
  }

  private clampControls(store: ColumnStore) {
    return html`<section>
      <h2>Clamp</h2>
      <bf-number label="open" unit="%" slider .min=${0} .max=${100} .step=${5} .value=${Math.round((store.moment?.clampOpen ?? 0) * 100)}
        .error=${this.refused('clamp')} @bf-change=${this.setClamp}></bf-number>
      <div class="row">
        <button type="button" @click=${() => this.act({ do: 'clamp', open_percent: 0 })}>Shut</button>
        <button type="button" @click=${() => this.act({ do: 'clamp', open_percent: 100 })}>Open fully</button>
      </div>
    </section>`;
  }

  private receiverControls(store: ColumnStore) {
    const labels = this.labels(store);
    const now = store.moment?.results.receivers[store.moment.receiver]?.label ?? '';
    return html`<section>
      <h2>Receiver under the tip</h2>
      <bf-segmented label="receiver" label-unseen .choices=${labels.map((value) => ({ value, label: value }))} .value=${now} @bf-change=${this.takeReceiver}></bf-segmented>
      <div class="row">
        <label>another <input type="text" maxlength="60" .value=${this.label} @input=${this.typeLabel} @keydown=${this.keyLabel} /></label>
        <button type="button" ?disabled=${this.label.trim() === ''} @click=${this.addReceiver}>Put under</button>
      </div>
      <p class="refused" role="alert">${this.refused('receiver')}</p>
    </section>`;
  }

  private timeControls(store: ColumnStore) {
    return html`<section>
      <h2>Model time</h2>
      <div class="row">
        <button type="button" class="primary" @click=${this.toggle}>${store.playing ? 'Pause' : 'Play'}</button>
        <bf-segmented label="speed" label-unseen .choices=${SPEEDS.map((speed) => ({ value: String(speed), label: `×${speed}` }))}
          .value=${String(store.speed)} @bf-change=${this.takeSpeed}></bf-segmented>
      </div>
      <bf-until .store=${store} @bf-until=${this.runUntil}></bf-until>
      <div class="row">
        <button type="button" ?disabled=${!store.canUndo} @click=${() => store.undo()}>Undo</button>
        <button type="button" ?disabled=${!store.canRedo} @click=${() => store.redo()}>Redo</button>
        <button type="button" ?disabled=${store.taken().length === 0} @click=${() => store.stepBack()}>Step back</button>
        <button type="button" @click=${() => store.startAgain()}>Start again</button>
        <button type="button" @click=${() => store.playProcedure()}>Play the procedure</button>
      </div>
    </section>`;
  }

  /** Room between the liquid and the rim, mL. */
  private freeVolume(store: ColumnStore): number {
    const values = store.scenario?.values;
    if (!values) return 0;
    const section = (Math.PI * values['column.bore_cm'] ** 2) / 4;
    return section * (values['column.tube_cm'] - values['bed.length_cm']) - (store.moment?.headVolume ?? 0);
  }

  /** Labels of the procedure and of the run, in order of use. */
  private labels(store: ColumnStore): string[] {
    const planned = (store.scenario?.procedure ?? []).flatMap((action) => (action.do === 'receiver' ? [action.label] : []));
    const used = store.moment?.results.receivers.map(({ label }) => label) ?? [];
    return [...new Set([...used, ...planned])];
  }

  private refused(kind: Action['do']): string {
    const event = this.store?.refusal;
    return event?.action?.do === kind && event.refused ? sentence(event.refused) : '';
  }

  private act(action: Action) {
    return this.store?.act(action);
  }

  private pour() {
    return this.act({ do: 'pour', liquid: this.liquid, volume_mL: this.volume_mL, how: this.how });
  }

  private flip() {
    return this.act({ do: 'clamp', open_percent: (this.store?.moment?.clampOpen ?? 0) > 0 ? 0 : 100 });
  }

  private toggle() {
    if (this.store?.playing) this.store.pause();
    else this.store?.play();
  }

  private takeLiquid(event: CustomEvent<{ value: string }>) {
    this.liquid = event.detail.value;
  }

  private takeVolume(event: CustomEvent<{ value: number }>) {
    this.volume_mL = event.detail.value;
  }

  private takeHow(event: CustomEvent<{ value: string }>) {
    this.how = event.detail.value === 'bed' ? 'bed' : 'wall';
  }

  private setClamp(event: CustomEvent<{ value: number }>) {
    void this.act({ do: 'clamp', open_percent: event.detail.value });
  }

  private takeReceiver(event: CustomEvent<{ value: string }>) {
    void this.act({ do: 'receiver', label: event.detail.value });
  }

  private typeLabel(event: InputEvent & { target: HTMLInputElement }) {
    this.label = event.target.value;
  }

  private keyLabel(event: KeyboardEvent) {
    if (event.key === 'Enter') void this.addReceiver();
  }

  private async addReceiver() {
    const label = this.label.trim();
    if (label === '') return;
    this.label = '';
    await this.act({ do: 'receiver', label });
  }

  private takeSpeed(event: CustomEvent<{ value: string }>) {
    this.store?.setSpeed(Number(event.detail.value));
  }

  private runUntil(event: CustomEvent<Until>) {
    void this.store?.runUntil(event.detail);
  }
}

function sentence({ expected, received }: Issue): string {
  return `Refused: expected ${expected}; received ${received}`;
}


declare global {
  interface HTMLElementTagNameMap {
    'bf-strip': BenchStrip;
  }
}
