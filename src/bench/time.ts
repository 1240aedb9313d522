import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Until } from '../../sim/terms/types.ts';
import { type ColumnStore, SPEEDS } from '../store/column-store.ts';
import { LiveElement } from '../store/live-element.ts';
import { KeysController } from '../ui/keys.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { sectionStyles } from './section-styles.ts';
import '../ui/segmented.ts';
import './until.ts';

/** Model time: play, pause, how fast, until when, and ways back. */
@customElement('bf-time')
export class TimeControl extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    sectionStyles,
    css`
      h2 { margin-right: auto; }
      .play { min-width: 5.5em; }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;

  constructor() {
    super();
    new KeysController(this, {
      heading: 'Model time',
      entries: [
        { key: 't', does: 'play or pause', run: () => this.toggle() },
        { key: ' ', shown: 'Space', does: 'the same, while no button has the focus', run: () => this.toggle() },
        { key: '[', does: 'slower', run: () => this.shift(-1) },
        { key: ']', does: 'faster', run: () => this.shift(1) },
        { key: 'j', does: 'jump to where playing would stop', run: () => void this.store?.skip() },
        { key: 'z', does: 'undo', run: () => void this.store?.undo() },
        { key: 'y', does: 'redo', run: () => void this.store?.redo() },
        { key: 'b', does: 'step back before the last action', run: () => void this.store?.stepBack() },
      ],
    });
  }

  override render() {
    const { store } = this;
    if (!store?.moment) return nothing;
    return html`<section aria-labelledby="heading">
      <div class="row">
        <h2 id="heading">Model time</h2>
        <button type="button" class="primary play" @click=${this.toggle}>${store.playing ? 'Pause' : 'Play'}</button>
      </div>
      <div class="row">
        <bf-segmented label="speed" label-unseen .choices=${SPEEDS.map((speed) => ({ value: String(speed), label: `×${speed}` }))}
          .value=${String(store.speed)} @bf-change=${this.takeSpeed}></bf-segmented>
        ${store.playing && Number.isFinite(store.stopAt) ? html`<button type="button" @click=${() => store.skip()}>Jump there</button>` : nothing}
      </div>
      <bf-until .store=${store} @bf-until=${this.runUntil}></bf-until>
      <div class="row">
        <button type="button" ?disabled=${!store.canUndo} @click=${() => store.undo()}>Undo</button>
        <button type="button" ?disabled=${!store.canRedo} @click=${() => store.redo()}>Redo</button>
        <button type="button" ?disabled=${store.taken.length === 0} @click=${() => store.stepBack()}>Step back</button>
        <button type="button" @click=${() => store.startAgain()}>Start again</button>
        <button type="button" @click=${this.procedure}>Play the procedure</button>
      </div>
    </section>`;
  }

  private toggle() {
    if (this.store?.playing) this.store.pause();
    else this.store?.play();
  }

  private shift(by: number) {
    const at = SPEEDS.map(Number).indexOf(this.store?.speed ?? 0);
    const speed = SPEEDS[Math.min(SPEEDS.length - 1, Math.max(0, at + by))];
    if (speed !== undefined) this.store?.setSpeed(speed);
  }

  private takeSpeed(event: CustomEvent<{ value: string }>) {
    this.store?.setSpeed(Number(event.detail.value));
  }

  private async runUntil(event: CustomEvent<Until>) {
    await this.store?.runUntil(event.detail);
    await this.jumpIfStill();
  }

  private async procedure() {
    await this.store?.playProcedure();
    await this.jumpIfStill();
  }

  /** Readers who want no motion get the end at once. */
  private async jumpIfStill() {
    if (matchMedia('(prefers-reduced-motion: reduce)').matches) await this.store?.skip();
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-time': TimeControl;
  }
}
