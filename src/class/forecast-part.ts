import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { CONTROLS } from '../../sim/terms/controls.ts';
import { type ClassForecast, type Distribution, GROUPS_MAX, SPREAD_IDS } from '../../sim/class/index.ts';
import { IONS } from '../../sim/terms/ions.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { controlStyles } from '../ui/styles.ts';
import { percent, significant } from '../ui/text/format.ts';
import type { ClassRoom } from './class-room.ts';
import '../ui/number.ts';
import '../ui/table.ts';

const FIGURES = [
  { key: 'leading_20_cm', label: 'front of the band after 20 mL of acid', unit: 'cm' },
  { key: 'leading_40_cm', label: 'front of the band after 40 mL of acid', unit: 'cm' },
  { key: 'window_from_mL', label: 'receiver: from, after water was started', unit: 'mL' },
  { key: 'window_to_mL', label: 'receiver: to, after water was started', unit: 'mL' },
  { key: 'recovered', label: 'recovered share', unit: '' },
  { key: 'acid_mmol', label: 'acid collected', unit: 'mmol' },
  { key: 'titre_mL', label: 'titre', unit: 'mL' },
  { key: 'time_min', label: 'time', unit: 'min' },
] as const;
const SPREAD_COLUMNS = [
  { key: 'figure', label: 'figure' },
  { key: 'median', label: 'median' },
  { key: 'low10', label: '10 %' },
  { key: 'high90', label: '90 %' },
  { key: 'least', label: 'least' },
  { key: 'most', label: 'most' },
  { key: 'cause', label: 'made by (share of the variance)' },
];
const PROCEDURES = [
  { key: 'written', label: 'as the scenario has it' },
  { key: 'forty', label: '40 mL of acid' },
  { key: 'stopped', label: 'until 5 mm above the bottom, at most 40 mL' },
] as const;
const CHANGE_COLUMNS = [
  { key: 'procedure', label: 'wash' },
  { key: 'wash', label: 'acid, mL' },
  { key: 'recovered', label: 'recovered share, median (least)' },
  { key: 'acid', label: 'acid collected, mmol' },
  { key: 'time', label: 'time, min' },
];
/** Fewer groups say nothing of shares. */
const GROUPS_LEAST = 10;
/** Causes that are named beside a figure. */
const CAUSES = 3;

/** What a class of so many groups will see of the scenario that is open. */
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
  /** Set by the reader over what the scenario says. */
  @state() private chosen: number | undefined;

  override render() {
    const { room } = this;
    const lab = this.session?.written;
    if (!room || !lab) return nothing;
    const { forecasting, forecast } = room;
    const groups = this.chosen ?? Math.max(CONTROLS['class.groups'].min, lab.values['class.groups']);
    return html`
      <p>Columns, bottles and hands differ. Each group gets its own from a seed; the procedure is that of the open scenario, “${lab.title}”.</p>
      <div class="row">
        <bf-number .of=${CONTROLS['class.groups']} .max=${GROUPS_MAX} .value=${groups} @bf-change=${this.setGroups}></bf-number>
        ${
          forecasting
            ? html`<progress max=${forecasting.of} .value=${forecasting.done} aria-label="Runs done"></progress>
              <span role="status">${forecasting.done} of ${forecasting.of}</span>
              <button type="button" @click=${() => room.cancelForecast()}>Cancel</button>`
            : html`<button type="button" class="primary" @click=${() => void room.foresee(lab, groups)}>Work it out</button>`
        }
      </div>
      ${room.failure === '' ? nothing : html`<p role="alert">Some groups could not be worked out: ${room.failure}</p>`}
      ${forecast ? this.tables(forecast) : nothing}`;
  }

  private readonly setGroups = (event: CustomEvent<{ value: number }>) => {
    this.chosen = event.detail.value;
  };

  private tables(forecast: ClassForecast) {
    return html`
      <p role="status">${lossWords(forecast)}</p>
      <bf-table caption="What ${forecast.groups} groups see" .columns=${SPREAD_COLUMNS} .rows=${figureRows(forecast)}></bf-table>
      <bf-table caption="What another wash would do" .columns=${CHANGE_COLUMNS} .rows=${changeRows(forecast)}></bf-table>
      <p class="soft">One lane a column, so uneven packing shows nothing here. A share of the variance is what one spread makes when it alone is switched on,
        from ${forecast.groupsAlone} groups: known to about a quarter of itself. Widths: ${SPREAD_IDS.map((id) => `${forecast.spreads[id].label} ${forecast.spreads[id].size} ${forecast.spreads[id].unit}`.trim()).join(', ')}; most are assumed.</p>`;
  }
}

/** Whether the receiver change that is planned serves every group. */
export function lossWords({ groups, target, procedures }: ClassForecast): string {
  const { ion, recovered, missedBy } = target;
  const name = IONS[ion].name;
  const planned = 'With the receiver changed as the procedure has it,';
  if (missedBy === 0) return `${planned} no group loses more than ${percent(1 - recovered)} of its ${name}.`;
  const most = percent(1 - (procedures.written.recovered?.least ?? 0));
  return `${planned} ${missedBy} of ${groups} groups ${missedBy === 1 ? 'loses' : 'lose'} more than ${percent(1 - recovered)} of ${missedBy === 1 ? 'its' : 'their'} ${name}; the most that is lost is ${most}.`;
}

function figureRows(forecast: ClassForecast) {
  const all: Readonly<Record<string, Distribution | undefined>> = { ...forecast.procedures.written, ...forecast.depths };
  return FIGURES.flatMap(({ key, label, unit }) => {
    const spread = all[key];
    if (!spread) return [];
    const { median, low10, high90, least, most } = spread;
    return [{ figure: unit === '' ? label : `${label}, ${unit}`, ...texts({ median, low10, high90, least, most }), cause: causes(forecast, key) }];
  });
}

function causes({ shares, spreads, groupsAlone }: ClassForecast, key: (typeof FIGURES)[number]['key']): string {
  if (groupsAlone < GROUPS_LEAST) return `${GROUPS_LEAST} groups or more are needed to say`;
  const found = shares[key];
  const known = SPREAD_IDS.map((id) => ({ label: spreads[id].label, share: found?.[id] ?? 0 })).filter(({ share }) => share >= 0.02);
  const most = known.sort((a, b) => b.share - a.share).slice(0, CAUSES);
  return most.map(({ label, share }) => `${label} ${Math.round(100 * share)} %`).join(', ');
}

function changeRows({ procedures }: ClassForecast) {
  return PROCEDURES.map(({ key, label }) => {
    const { wash_mL, recovered, acid_mmol, time_min } = procedures[key];
    const median = (figure: Distribution | undefined): string => (figure ? significant(figure.median, 3) : '');
    return {
      procedure: label,
      wash: median(wash_mL),
      recovered: recovered ? `${significant(recovered.median, 4)} (${significant(recovered.least, 4)})` : '',
      acid: median(acid_mmol),
      time: median(time_min),
    };
  });
}

function texts(values: Readonly<Record<string, number>>): Readonly<Record<string, string>> {
  return Object.fromEntries(Object.entries(values).map(([key, value]) => [key, significant(value, 3)]));
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-class-forecast': ForecastPart;
  }
}
