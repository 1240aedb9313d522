import { receiverName } from '../ui/text/receiver-words.ts';
import { html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { classPlan } from '../../sim/class/index.ts';
import { groupUse } from '../../sim/lab/index.ts';
import { BEGINS_SHARE, leavesAt, lessonOf, lessonWords, progressOf } from '../../sim/history/index.ts';
import { IONS } from '../../sim/terms/ions.ts';
import { reportOf } from '../../sim/report/index.ts';
import { fileName, offerFile, runFileText } from '../store/keep/files.ts';
import { eyePredictions, judgedNow } from '../plot/eye-predictions.ts';
import type { Log, Scenario } from '../../sim/terms/types.ts';
import type { Session } from '../store/session.ts';
import { isOverByNow } from '../store/over.ts';
import { VALUE_LONGEST } from '../store/keep/work-up.ts';
import { LiveElement } from '../store/live-element.ts';
import { CAUTION_CLOSE, CAUTIONS } from '../ui/safety/cautions.ts';
import { csvText } from '../ui/text/csv.ts';
import { percentBeside } from '../ui/text/beside-limit.ts';
import { fixed, millilitres } from '../ui/text/format.ts';
import { amissIn } from '../ui/text/task/amiss-words.ts';
import { showRuns } from '../ui/show-runs.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { COLUMN_COLUMNS, columnRows, predictionLines, READING_COLUMNS, readingRows, WORK_UP_COLUMNS, workUpRows } from './readings.ts';
import { reportedOf } from './reported.ts';
import { viewStyles } from './view-styles.ts';
import './calculation.ts';
import './replicates.ts';
import '../ui/table.ts';
import '../ui/named/column-name.ts';

/** Of the waste alone: the rest is said by the close of the cautions. */
const WASTE_CLOSE = 'What goes into which container is decided by the chemical hygiene plan and a qualified safety officer.';

const WHY = 'Why do two ions of equal charge separate?';

/** The notebook: readings, expectations, the reader's own calculation, the result with its uncertainty, safety and waste. Prints on two pages. */
@customElement('bf-notebook')
export class NotebookView extends LiveElement {
  static override styles = [controlStyles, hiddenStyles, viewStyles];

  @property({ attribute: false }) session: Session | undefined;

  override render() {
    const { session } = this;
    const scenario = session?.store.scenario;
    if (!session || !scenario || !session.store.moment) return html`<h1>Notebook</h1><p role="status">The run is being opened …</p>`;
    return html`<div class="bar">
        <h1>Notebook</h1>
        <button type="button" @click=${() => print()}>Print</button>
        <button type="button" @click=${this.saveCsv}>Save readings as CSV</button>
        <button type="button" @click=${this.saveJson}>Save as JSON</button>
      </div>
      <p class="run">${scenario.title}, <bf-column-name seed=${scenario.seed}></bf-column-name>${session.store.log.length === 0 && session.runs.length > 0 ? html` <button type="button" @click=${() => showRuns(this)}>Open a kept run</button>` : nothing}</p>
      ${this.figure(session)}
      <div class="pages">
        <div class="first">
          <div class="page">
            <bf-calculation .session=${session}></bf-calculation>
            ${this.why(session)}
            ${this.expected(session)}
            ${this.debrief(session)}
            ${this.own(session)}
          </div>
          <bf-table class="at-column" caption="Readings at the column" .columns=${COLUMN_COLUMNS} .rows=${columnRows(session)} no-copy></bf-table>
        </div>
        <div class="second">
          <div class="page"><bf-replicates .session=${session}></bf-replicates></div>
          <bf-table class="at-bench" caption="Readings on the work-up bench" .columns=${WORK_UP_COLUMNS} .rows=${workUpRows(session)} no-copy></bf-table>
          <div class="page">${this.safety(session.written ?? scenario, session.store.log)}</div>
        </div>
      </div>`;
  }

  /** The run as far as it may be seen; on paper it is as wide as the sheet. */
  private figure(session: Session) {
    const { store, sees, targets, window } = session;
    const { scenario, plan, atPresent: moment, present_min } = store;
    if (!moment || store.log.length === 0) return nothing;
    return html`<div class="run-figure"><bf-figure .scenario=${scenario} .plan=${plan} .now_mL=${moment.delivered_mL} .now_min=${present_min} .showForecast=${sees === 'forecast'}
      .byEye=${sees === 'eye' ? (targets?.target ?? 'Co') : undefined} .targets=${targets} .predictions=${eyePredictions(judgedNow(session))} .window=${isOverByNow(store) ? window : undefined} losses></bf-figure></div>`;
  }

  private expected(session: Session) {
    const lines = predictionLines(session);
    return html`<section><h2>What you expected</h2>${lines.length === 0 ? html`<p class="soft">Nothing was written down before it was seen.</p>` : html`<ul>${lines.map((line) => html`<li>${line}</li>`)}</ul>`}</section>`;
  }

  /** Asked in the reader's own words, beside what the own run shows; nothing is answered here. */
  private why({ store, workUp }: Session) {
    const { plan, atPresent: moment } = store;
    if (!plan || !moment || plan.ions.length < 2 || plan.ions.some((ion) => IONS[ion].charge !== IONS[plan.ions[0]].charge)) return nothing;
    const seen = plan.ions.map((ion) => {
      const mL = leavesAt(plan, ion, BEGINS_SHARE);
      return `${IONS[ion].symbol} ${mL !== undefined && mL <= moment.delivered_mL ? `after ${millilitres(mL)}` : 'not yet'}`;
    });
    const said = workUp.saved.entries.find(({ what }) => what === WHY)?.value ?? '';
    return html`<section class="own"><h2>${WHY}</h2><p>In your run the first hundredth of each ion left the column: ${seen.join(', ')}. As free ions, all of them carry the same charge: what separates them?</p>
      <label class="why">in your own words <textarea rows="4" maxlength=${VALUE_LONGEST} .value=${said} @change=${(event: Event & { target: HTMLTextAreaElement }) => workUp.writeOver({ what: WHY, value: event.target.value.trim() })}></textarea></label>
      <p class="soft" role="status">${said === '' ? '' : 'Kept with the run.'}</p></section>`;
  }

  private debrief(session: Session) {
    const { store, workUp, targets } = session;
    const { receiver } = workUp;
    const { scenario, plan } = store;
    const { results } = store.atPresent ?? {};
    if (!receiver || !results || !scenario || !plan) return nothing;
    const lesson =
      isOverByNow(store) && targets
        ? lessonWords(lessonOf(plan, targets, progressOf(scenario, plan.events).eluent_mL), targets, amissIn(session, plan, true))
        : '';
    const { loaded, onBed } = results;
    const of = (held: number | undefined, whole: number | undefined, limit = Number.NaN): string =>
      percentBeside((held ?? 0) / Math.max(1e-12, whole ?? 0), limit);
    return html`<section><h2>This column run</h2><p>“${receiverName(receiver.label ?? '')}” took ${millilitres(receiver.volume_mL)} with ${of(receiver.Co_mmol, loaded.Co_mmol, targets?.recovered)} of the cobalt${(loaded.Ni_mmol ?? 0) > 0 ? html`, ${of(receiver.Ni_mmol, loaded.Ni_mmol, targets?.carried)} of the nickel` : nothing} and ${fixed(receiver.HCl_mmol, 1)} mmol of acid; ${of(onBed.Co_mmol, loaded.Co_mmol)} of the cobalt is still on the bed.</p>${lesson === '' ? nothing : html`<p>${lesson}</p>`}</section>`;
  }

  private own({ workUp }: Session) {
    const { entries } = workUp.saved;
    const none = entries.every(({ what }) => what === WHY);
    return html`<section class="own ${none ? 'nothing-own' : ''}"><h2>Own entries</h2>
      ${none ? nothing : html`<ul>${entries.map(({ what, value }, i) => (what === WHY ? nothing : html`<li>${what}${value === '' ? '' : `: ${value}`} <button type="button" class="plain" @click=${() => workUp.strike(i)}>strike<span class="unseen"> ${what}</span></button></li>`))}</ul>`}
      <form @submit=${this.write}><label>what <input name="what" type="text" maxlength="200" required autocomplete="off" /></label>
        <label>value <input name="value" type="text" maxlength="200" autocomplete="off" /></label><button type="submit">Write down</button></form>
    </section>`;
  }

  /** Amounts of what was poured; before anything was, of the written procedure. */
  private safety(scenario: Scenario, log: Log) {
    const { waste } = classPlan(1, groupUse(scenario, log.length > 0 ? log : scenario.procedure, 1, undefined));
    return html`<section class="safety"><h2>Safety and waste</h2>
      <ul>${Object.values(CAUTIONS).map(({ heading, lines }) => html`<li><strong>${heading}.</strong> ${lines[0]}</li>`)}</ul>
      <h3>Waste is kept apart</h3>
      <p class="soft">${log.length > 0 ? 'Alkali for what was poured in this run.' : 'Alkali for the procedure as it is written.'}</p>
      <ul>${waste.map(({ stream, what, rule }) => html`<li><strong>${stream}</strong> ${what}: ${rule}</li>`)}</ul>
      <p>${CAUTION_CLOSE} ${WASTE_CLOSE}</p></section>`;
  }

  private write(event: Event & { target: HTMLFormElement }) {
    event.preventDefault();
    const form = new FormData(event.target);
    const what = String(form.get('what') ?? '').trim();
    if (what === '') return;
    this.session?.workUp.write({ what, value: String(form.get('value') ?? '').trim() });
    event.target.reset();
  }

  private saveCsv() {
    const { session } = this;
    if (session)
      offerFile(document, fileName(`${session.store.scenario?.title ?? 'run'} readings`, 'csv'), csvText(READING_COLUMNS, readingRows(session)), 'text/csv');
  }

  private saveJson() {
    const { session } = this;
    const { receiver, figures, sample, saved } = session?.workUp ?? {};
    if (!session) return;
    const extra = {
      results: session.store.atPresent?.results,
      readings: readingRows(session),
      calculation: session.workUp.own,
      figures: receiver && figures ? reportOf(receiver, sample, figures) : undefined,
      reported: reportedOf(saved?.kept ?? [], 'page'),
    };
    offerFile(document, fileName(`${session.store.scenario?.title ?? 'run'} notebook`, 'json'), runFileText(session.saved(), extra));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-notebook': NotebookView;
  }
}
