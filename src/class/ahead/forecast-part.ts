import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { CONTROLS } from '../../../sim/terms/controls.ts';
import { type ClassForecast, GROUPS_MAX, SPREAD_IDS } from '../../../sim/class/index.ts';
import { LiveElement } from '../../store/live-element.ts';
import type { Session } from '../../store/session.ts';
import { controlStyles } from '../../ui/styles.ts';
import { percent } from '../../ui/text/format.ts';
import type { ClassRoom } from '../class-room.ts';
import { acidWords, CHANGE_COLUMNS, changeRows, depthWords, doubtOf, figureRows, GROUPS_USUAL, groupsWords, lossWords, SPREAD_COLUMNS } from './words.ts';
import '../../ui/number.ts';
import '../../ui/table.ts';

const CLOSED =
  'What is on the bench was handed out: what a class will see with it is shown when its tries are over and its faults, if it has any to find, are named.';

/** What a class of a given number of groups will see with the open scenario. */
@customElement('bf-class-forecast')
export class ForecastPart extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: grid; gap: var(--gap); grid-template-columns: minmax(0, 1fr); }
      p { margin: 0; }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap-large); align-items: end; }
      .soft { color: var(--soft); font-size: var(--text-small); }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @property({ attribute: false }) room: ClassRoom | undefined;
  /** Set by the reader instead of the scenario's number. */
  @state() private chosen: number | undefined;

  override render() {
    const { room } = this;
    const lab = this.session?.written;
    if (!room || !lab) return nothing;
    if (this.session?.labClosed) return html`<p role="status">${CLOSED}</p>`;
    const { forecasting, forecast } = room;
    const groups = this.chosen ?? Math.max(GROUPS_USUAL, lab.values['class.groups']);
    return html`
      <p>${groupsWords(lab)} All follow the procedure of the open scenario, “${lab.title}”.${this.example()}</p>
      <div class="row">
        <bf-number .of=${CONTROLS['class.groups']} .max=${GROUPS_MAX} .value=${groups} @bf-change=${this.setGroups}></bf-number>
        ${
          forecasting
            ? html`<progress max=${forecasting.of} .value=${forecasting.done} aria-label="Runs done"></progress>
              <span role="status">${forecasting.done} of ${forecasting.of}</span>
              <button type="button" @click=${() => room.cancelForecast()}>Cancel</button>`
            : html`<button type="button" class="primary" @click=${() => void room.foresee(lab, groups)}>Compute</button>`
        }
      </div>
      ${room.failure === '' ? nothing : html`<p role="alert">Some groups could not be computed: ${room.failure}</p>`}
      ${forecast ? this.tables(forecast) : nothing}`;
  }

  /** A run that was opened from the class has brought its scenario along, which need not be the instructor's. */
  private example(): string {
    const words = this.session?.exampleWords ?? '';
    return words === '' ? '' : ` It came with the run of ${words}, which is on the bench.`;
  }

  private readonly setGroups = (event: CustomEvent<{ value: number }>) => {
    this.chosen = event.detail.value;
  };

  private tables(forecast: ClassForecast) {
    const depths = depthWords(forecast);
    return html`
      <p role="status">${lossWords(forecast)} ${acidWords(forecast)}</p>
      <p class="soft">Computed with “${forecast.title}”.</p>
      ${depths === '' ? nothing : html`<p>${depths}</p>`}
      <bf-table caption="What ${forecast.groups} groups see" .columns=${SPREAD_COLUMNS} .rows=${figureRows(forecast)}></bf-table>
      <bf-table caption="What another wash would do" .columns=${CHANGE_COLUMNS} .rows=${changeRows(forecast)}></bf-table>
      <p class="soft">Each column is computed as one lane, so uneven packing has no effect here. A share of the variance is what one spread causes when it alone is switched on,
        from ${forecast.groupsAlone} groups: ${forecast.groupsAlone > 1 ? `known to about ±${percent(doubtOf(forecast), 0)} of its value` : 'not known from one group'}. The shares need not add up to 100 %: each comes from a draw of its own, and spreads act together. Widths: ${SPREAD_IDS.map((id) => `${forecast.spreads[id].label} ${forecast.spreads[id].size} ${forecast.spreads[id].unit}`.trim()).join(', ')}; most are assumed.</p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-class-forecast': ForecastPart;
  }
}
