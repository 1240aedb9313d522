import { nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Plan } from '../../../sim/history/index.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import { LiveElement } from '../../store/live-element.ts';
import { announce } from '../../ui/announce.ts';
import { millilitres } from '../../ui/text/format.ts';
import { eventWords } from './event-words.ts';

/** Speaks what happened on the bench: actions done, notes of the model, the end of a stretch. Refusals speak for themselves at their control. Draws nothing. */
@customElement('bf-announcer')
export class Announcer extends LiveElement {
  @property({ attribute: false }) store: ColumnStore | undefined;
  private plan: Plan | undefined;
  private heard = 0;
  private played = false;

  override willUpdate() {
    const { moment, plan, scenario, playing } = this.store ?? {};
    if (!moment || !plan || !scenario) return;
    const lines = moment.events
      .slice(this.plan === undefined ? moment.events.length : this.heard)
      .flatMap((event) => (event.refused ? [] : (eventWords(event, scenario) ?? [])));
    this.plan = plan;
    this.heard = moment.events.length;
    if (this.played && !playing)
      lines.push(
        `stopped at ${millilitres(moment.delivered_mL)} delivered, ${moment.level_cm > 0 ? `liquid ${(moment.level_cm * 10).toFixed(0)} mm above the bed` : 'liquid at the bed top'}`,
      );
    this.played = playing === true;
    if (lines.length > 0) announce(this, lines.slice(-2).join('; '));
  }

  override render() {
    return nothing;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-announcer': Announcer;
  }
}
