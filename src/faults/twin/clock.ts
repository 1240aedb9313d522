import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ColumnStore } from '../../store/column-store.ts';
import { SPEEDS } from '../../store/run/playback.ts';
import { LiveElement } from '../../store/live-element.ts';
import { duration, fixed, millilitres, quantity, withUnit } from '../../ui/text/format.ts';
import { controlStyles } from '../../ui/styles.ts';

/** Plays the run, and with it its twin: play, pause, speed, any moment of it. */
@customElement('bf-fault-clock')
export class FaultClock extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap); align-items: center; }
      input[type='range'] { flex: 1 1 10rem; min-width: 6rem; min-height: var(--target); margin: 0; }
      label { display: flex; gap: var(--gap-small); align-items: center; }
      .slide { flex: 4 1 16rem; }
      output { font-size: var(--text-small); }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;
  /** Tells the time alone, where the rest is told elsewhere. */
  @property({ type: Boolean }) brief = false;

  override render() {
    const { store } = this;
    if (!store?.plan || !store.moment) return nothing;
    const { moment, now, playing, speed } = store;
    const end = this.end();
    return html`
      <button type="button" class="primary" @click=${this.turn}>${playing ? 'Pause' : store.log.length === 0 ? 'Play the procedure' : 'Play'}</button>
      <label class="slide">time<input type="range" min="0" max=${end} step="any" .value=${String(Math.min(now, end))} aria-valuetext="${fixed(now, 1)} minutes" @input=${this.seek} /></label>
      <label>speed<select @change=${this.takeSpeed}>${SPEEDS.map((value) => html`<option value=${value} ?selected=${value === speed}>${value}×</option>`)}</select></label>
      <output>${duration(now)}${this.brief ? '' : `, ${millilitres(moment.delivered_mL)} delivered, ${moment.flow > 0 ? quantity(moment.flow, 'mL/min', 2) : 'no flow'}, ${withUnit(fixed(moment.level_cm * 10, 0), 'mm')} above the bed`}</output>`;
  }

  private end(): number {
    return Math.max(0.1, this.store?.plan?.logEnd.time_min ?? 0);
  }

  private turn() {
    const { store } = this;
    if (!store) return;
    if (store.playing) store.pause();
    else if (store.log.length === 0) void store.playProcedure();
    else if (store.now >= this.end()) void store.seek(0).then(() => this.playToEnd());
    else this.playToEnd();
  }

  private playToEnd() {
    const { store } = this;
    if (!store) return;
    store.stopAt = this.end();
    store.play();
  }

  private seek(event: Event & { target: HTMLInputElement }) {
    this.store?.pause();
    void this.store?.seek(Number(event.target.value));
  }

  private takeSpeed(event: Event & { target: HTMLSelectElement }) {
    this.store?.setSpeed(Number(event.target.value));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-fault-clock': FaultClock;
  }
}
