import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { sameLog } from '../../../sim/faults/index.ts';
import { lessonOf, lessonWords, type Plan, progressOf } from '../../../sim/history/index.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import type { Bookmark } from '../../store/column-store.ts';
import { fileName, offerFile, runFileText } from '../../store/keep/files.ts';
import type { HandleMove } from '../dragging.ts';
import type { Session } from '../../store/session.ts';
import { LiveElement } from '../../store/live-element.ts';
import { csvText, type Column } from '../../ui/text/csv.ts';
import { emit } from '../../ui/emit.ts';
import { showRuns } from '../../ui/show-runs.ts';
import { fixed } from '../../ui/text/format.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import { amountOf, factsOf, judgementOf, judgementWords, type Place, placesOf, tryWords } from './debrief-numbers.ts';
import { debriefStyles } from './debrief-styles.ts';
import { isOverByNow } from '../../store/over.ts';
import { amountsAsked } from '../../ui/text/amounts-asked.ts';
import { eyePredictions, judgedNow } from '../../plot/eye-predictions.ts';
import { amissIn } from '../../ui/text/task/amiss-words.ts';
import { askedWords } from '../../ui/text/task/asked-words.ts';
import { whereBar } from './where-bar.ts';
import { actionWords, refusalWords } from '../said/event-words.ts';
import '../../ui/readout.ts';
import './ended.ts';
import '../../ui/table.ts';
import '../../ui/named/column-name.ts';

/**
 * How the run ended: where every mmol is, what the chosen moments cost, and what was refused. One page in print.
 *
 * At the end of the run its handles are free: what if?
 *
 * @slot why - why something was lost
 * @fires bf-handle - a handle of the figure is moved
 * @fires bf-leave - back to the bench
 */
@customElement('bf-debrief')
export class Debrief extends LiveElement {
  static override styles = [controlStyles, hiddenStyles, debriefStyles];

  @property({ attribute: false }) session: Session | undefined;
  /** The run with a receiver that is being moved. */
  @property({ attribute: false }) moved: Plan | undefined;
  /** The reader's run before a handle is moved: when the debrief is left, it is back. */
  @state() private own: Bookmark | undefined;
  /** What it came to; empty until a handle is moved. */
  @state() private ownWords = '';
  @state() private waterMoved = false;
  @query('h1') private heading!: HTMLElement;
  @query('#why') private why!: HTMLElement;

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.comeBack();
    this.own = undefined;
  }

  override firstUpdated() {
    const { store } = this.session ?? {};
    this.own = store?.bookmark();
    if (store?.present !== undefined) void store.lookBack(undefined);
    this.heading.focus();
  }

  override render() {
    const { session } = this;
    const store = session?.store;
    if (!session || !store?.scenario || !store.plan || !store.atPresent || !session.targets) return nothing;
    const { scenario, atPresent: moment } = store;
    const plan = this.moved ?? store.shown ?? store.plan;
    const over = isOverByNow(store);
    const { target } = session.targets;
    const places = placesOf(moment.results);
    const judged = judgementOf(scenario, plan, session.targets);
    const lesson = judged?.lesson ?? lessonOf(plan, session.targets, progressOf(scenario, plan.events).eluent_mL);
    const amiss = amissIn(session, plan, over);
    const words = lessonWords(lesson, session.targets, amiss);
    const unchanged = this.own !== undefined && sameLog(store.log, this.own.log);
    const tried = this.moved !== undefined || store.preview !== undefined;
    const amounts = session.workUp.showsAmounts;
    return html`
      <div class="bar">
        <button type="button" @click=${this.leave}>Back to the bench</button>
        <button type="button" @click=${() => showRuns(this)}>Kept runs</button>
        <button type="button" @click=${() => print()}>Print</button>
        <button type="button" @click=${this.saveCsv}>Save as CSV</button>
        <button type="button" @click=${this.saveJson}>Save as JSON</button>
      </div>
      <h1 tabindex="-1">Debrief</h1>
      ${
        this.ownWords && (tried || !unchanged)
          ? html`<p class="lesson"><strong>What if:</strong> ${words}${this.waterMoved ? ' The receiver change moved along with the water.' : ''}</p>
          <p class="lesson"><strong>Your run:</strong> ${this.ownWords}</p>
          <p class="run"><button type="button" @click=${this.comeBack}>Back to my own run</button></p>`
          : html`<p class="lesson">${words}</p>`
      }
      <p class="run">${scenario.title}, <bf-column-name seed=${scenario.seed}></bf-column-name>. ${over ? html`The run is over. What if? Drag a handle of the figure: ${tryWords(lesson)}. Your own run comes back when you leave. <button type="button" ?disabled=${!store.canUndo || unchanged} @click=${() => store.undo()}>Undo</button>` : 'The run is not over: amounts are those of this moment, the judgement assumes that nothing more is done.'}</p>
      ${amiss.length === 0 ? nothing : html`<p class="run leads"><button type="button" @click=${this.showWhy}>Where it went, and why</button> tells what each cause cost.</p>`}
      <p class="run">The task: ${askedWords(session.targets)}</p>
      ${this.figure(session)}
      <div class="part-of">
        <section><h2>Where the ${IONS[target].name} is</h2>${whereBar(places, target, amounts)}
          ${session.targets.unwanted.map((ion) => html`<h3>and the ${IONS[ion].name}</h3>${whereBar(places, ion, amounts)}`)}</section>
        <section>${
          amounts
            ? html`<bf-table caption="Where everything is" .columns=${columnsOf(plan.ions)} .rows=${rowsOf(places, plan.ions)}></bf-table>`
            : amountsAsked(session.workUp.askForAmounts)
        }</section>
      </div>
      <div class="part-of">
        <section><h2>The fraction</h2>
          ${judged ? html`<ul>${judgementWords(judged, session.targets).map((line) => html`<li>${line}</li>`)}</ul>` : html`<p>No ${IONS[target].name} has left the column.</p>`}
        </section>
        <section><bf-readout heading="The run" .readings=${factsOf(scenario, moment.results, plan, store.present_min)}></bf-readout></section>
        <section><h2>Refused</h2>${
          store.refusals.length === 0
            ? html`<p>No step was refused.</p>`
            : html`<ul>${store.refusals.map(
                ({ action, refused, time_min }) =>
                  html`<li>${fixed(time_min, 1)} min, ${action ? actionWords(action, scenario) : ''}: ${refused ? refusalWords(refused) : ''}</li>`,
              )}</ul>`
        }</section>
      </div>
      <div class="wide" id="why" tabindex="-1"><slot name="why"></slot></div>`;
  }

  /** The whole run, with what was lost painted on it; on paper it is as wide as the sheet. */
  private figure(session: Session) {
    const { store, targets, window } = session;
    const { scenario, plan, preview, atPresent: moment, present_min } = store;
    if (!moment) return nothing;
    return html`<div class="wide run-figure"><bf-figure @bf-handle=${this.remember} .scenario=${scenario} .plan=${plan} .preview=${preview} .handles=${isOverByNow(store) ? store.handles : []} .now_mL=${moment.delivered_mL} .now_min=${present_min} .showForecast=${true}
      .window=${window} .targets=${targets} .predictions=${eyePredictions(judgedNow(session))} losses></bf-figure></div>`;
  }

  /** Shows what would be if a handle stood elsewhere, beside the reader's own run. */
  async tryMove(move: HandleMove): Promise<void> {
    await this.updateComplete;
    this.remember({ detail: { ...move, phase: 'move' } });
    emit(this, 'bf-handle', move);
  }

  private remember({ detail }: { readonly detail: Pick<HandleMove, 'kind' | 'phase'> }) {
    const { session } = this;
    const { store, targets } = session ?? {};
    if (!store?.scenario || !store.plan || !targets) return;
    if (detail.phase === 'move') this.waterMoved = detail.kind === 'eluent';
    this.ownWords ||= lessonWords(
      lessonOf(store.plan, targets, progressOf(store.scenario, store.plan.events).eluent_mL),
      targets,
      session ? amissIn(session, store.plan, isOverByNow(store)) : [],
    );
  }

  private showWhy() {
    this.why.focus({ preventScroll: true });
    this.why.scrollIntoView({ block: 'start' });
  }

  /** Before anything else is shown, so that what was tried is never taken for the reader's own run. */
  private comeBack() {
    if (this.own && this.ownWords) void this.session?.store.comeBack(this.own);
    this.ownWords = '';
  }

  private leave() {
    this.comeBack();
    emit(this, 'bf-leave', undefined);
  }

  private saveCsv() {
    const { store } = this.session ?? {};
    if (!store?.scenario || !store.plan || !store.atPresent) return;
    const { ions } = store.plan;
    offerFile(
      document,
      fileName(`${store.scenario.title} amounts`, 'csv'),
      csvText(columnsOf(ions), rowsOf(placesOf(store.atPresent.results), ions)),
      'text/csv',
    );
  }

  private saveJson() {
    const { session } = this;
    const { store } = session ?? {};
    if (!session || !store?.scenario || !store.plan || !store.atPresent || !session.targets) return;
    const judged = judgementOf(store.scenario, store.plan, session.targets);
    const extra = {
      scenario: session.json,
      results: store.atPresent.results,
      targets: session.targets,
      fraction: judged && { ...judged, window: judged.window && { from_mL: judged.window.from_mL, to_mL: judged.window.to_mL } },
    };
    offerFile(document, fileName(`${store.scenario.title} debrief`, 'json'), runFileText(session.saved(), extra));
  }
}

function columnsOf(ions: readonly (keyof typeof IONS)[]): Column[] {
  const amount = (value: number): string => fixed(value, 4);
  return [
    { key: 'place', label: 'place' },
    { key: 'volume', label: 'volume', unit: 'mL', show: (value) => fixed(value, 2) },
    ...ions.map((ion) => ({ key: ion, label: IONS[ion].symbol, unit: 'mmol', show: amount })),
    { key: 'HCl', label: 'HCl', unit: 'mmol', show: (value) => fixed(value, 2) },
  ];
}

function rowsOf(places: readonly Place[], ions: readonly (keyof typeof IONS)[]) {
  const components = [...ions, 'HCl'] as const;
  const row = (place: string, volume: number | undefined, of: (component: (typeof components)[number]) => number) => ({
    place,
    volume,
    ...Object.fromEntries(components.map((component) => [component, of(component)])),
  });
  const total = row('together', undefined, (component) => places.reduce((sum, place) => sum + amountOf(place, component), 0));
  return [...places.map((place) => row(place.label, place.volume_mL, (component) => amountOf(place, component))), total];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-debrief': Debrief;
  }
}
