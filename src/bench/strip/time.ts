import { css, html, nothing } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import { LOW_MM, stillness, type Stillness } from '../../../sim/teach/index.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import { isOver } from '../../store/over.ts';
import { SPEEDS } from '../../store/run/playback.ts';
import { LiveElement } from '../../store/live-element.ts';
import { emit } from '../../ui/emit.ts';
import { KeysController } from '../../ui/keys.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import { ON_ITS_WAY, stillWords } from '../words.ts';
import { partStyles } from './part-styles.ts';

/** A press so soon after playing has ended by itself was meant to pause it, ms; about the time to see and to react. A choice. */
const MEANT_MS = 600;

/**
 * Model time: to the last millimetre, how fast, play, undo.
 *
 * @fires bf-say - {text, kind} why nothing would happen
 */
@customElement('bf-time')
export class TimeControl extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    partStyles,
    css`
      .play { min-width: 5.5em; font-weight: 600; }
      select { width: 4em; padding: 0 0.2em; }
      [aria-disabled='true'] { color: var(--soft); border-style: dashed; }
      .sign { font-size: 1.125rem; padding: 0; min-width: 2.25rem; }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;
  @query('.play') private readonly playButton!: HTMLElement | null;
  private played = false;
  private stoppedAt = Number.NEGATIVE_INFINITY;

  constructor() {
    super();
    new KeysController(this, {
      heading: 'Model time',
      entries: [
        { key: 't', does: 'play or pause', run: () => this.toggle() },
        { key: ' ', shown: 'Space', does: 'the same, while no button has the focus', run: () => this.toggle() },
        { key: 'm', does: `run until the liquid is ${LOW_MM} mm above the bed`, run: () => void this.low() },
        { key: '[', does: 'slower', run: () => this.shift(-1) },
        { key: ']', does: 'faster', run: () => this.shift(1) },
        { key: 'j', does: 'jump to where playing would stop', run: () => this.jump() },
        { key: 'z', shown: 'z or Ctrl Z', does: 'undo', run: () => void this.store?.undo() },
        { key: 'y', shown: 'y or Ctrl Y', does: 'redo', run: () => void this.store?.redo() },
        { key: 'b', does: 'step back before the last action', run: () => void this.store?.stepBack() },
      ],
    });
  }

  override render() {
    const { store } = this;
    if (!store?.moment) return nothing;
    return html`<button type="button" @click=${this.low}>to ${LOW_MM} mm</button>
      <button type="button" class="sign" aria-label="Jump there" title="jump to where playing stops" aria-disabled=${!aims(store)} @click=${this.jump}>⇥</button>
      <select aria-label="speed" @change=${this.takeSpeed}>${speedsWith(store.speed).map((speed) => html`<option value=${speed} .selected=${speed === store.speed}>×${speed}</option>`)}</select>
      <button type="button" class="play ${store.playing || isOver(store) ? '' : 'primary'}" @click=${this.press}>${store.playing ? 'Pause' : 'Play'}</button>
      <button type="button" class="sign" aria-label="Undo" ?disabled=${!store.canUndo} @click=${() => store.undo()}>↶</button>`;
  }

  override willUpdate() {
    const playing = this.store?.playing ?? false;
    if (this.played && !playing && this.playButton?.matches(':hover')) this.stoppedAt = performance.now();
    this.played = playing;
  }

  /** Playing that ended by itself makes Play of Pause under the pointer: a press on the way was meant for Pause. */
  private press() {
    if (performance.now() - this.stoppedAt > MEANT_MS) void this.toggle();
    this.stoppedAt = Number.NEGATIVE_INFINITY;
  }

  private pause(store: ColumnStore) {
    this.played = false;
    store.pause();
  }

  /** A clamp that is just being opened is waited for, or it would be called shut. */
  private async toggle() {
    const { store } = this;
    if (!store) return;
    if (store.playing) return this.pause(store);
    if (store.busy) await store.settled();
    if (!this.stuck(store)) store.play();
  }

  private jump() {
    if (this.store && aims(this.store)) void this.store.skip();
    else this.say(`⇥ jumps to where playing stops by itself: first press “to ${LOW_MM} mm”, or what is next in the task.`, 'note');
  }

  private readonly low = async () => {
    const { store } = this;
    if (!store?.moment) return;
    if (aims(store)) return this.say(ON_ITS_WAY, 'note');
    if (this.stuck(store)) return;
    if (store.moment.level_cm * 10 <= LOW_MM) return this.say(`The liquid is already down to ${LOW_MM} mm above the bed.`, 'note');
    await store.runUntil({ liquid_mm: LOW_MM });
    if (matchMedia('(prefers-reduced-motion: reduce)').matches) await store.skip();
  };

  /** Says why nothing would happen; what is written down ahead is played all the same. */
  private stuck(store: ColumnStore): boolean {
    const why: Stillness = store.moment && store.entry >= store.log.length ? stillness(store.moment) : undefined;
    if (why) this.say(stillWords(why));
    return why !== undefined;
  }

  private say(text: string, kind: 'note' | 'problem' = 'problem') {
    emit(this, 'bf-say', { text, kind });
  }

  private shift(by: number) {
    const at = SPEEDS.map(Number).indexOf(this.store?.speed ?? 0);
    const speed = SPEEDS[Math.min(SPEEDS.length - 1, Math.max(0, at + by))];
    if (speed !== undefined) this.store?.setSpeed(speed);
  }

  private takeSpeed(event: Event & { target: HTMLSelectElement }) {
    this.store?.setSpeed(Number(event.target.value));
  }
}

/** Whether playing will stop by itself. */
function aims({ playing, stopAt }: ColumnStore): boolean {
  return playing && Number.isFinite(stopAt);
}

function speedsWith(speed: number): number[] {
  return [...new Set<number>([...SPEEDS, speed])].sort((a, b) => a - b);
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-time': TimeControl;
  }
}
