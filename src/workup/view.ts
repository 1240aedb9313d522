import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Plan } from '../../sim/history/index.ts';
import type { Bench, Note, WorkUpAction, WorkUpState } from '../../sim/workup/index.ts';
import type { Session } from '../store/session.ts';
import { mayRunProcedure } from '../store/run/procedure.ts';
import { LiveElement } from '../store/live-element.ts';
import { emit } from '../ui/emit.ts';
import type { WorkUpStore } from '../store/work-up-store.ts';
import { fixed, millilitres } from '../ui/text/format.ts';
import { receiverName } from '../ui/text/receiver-words.ts';
import { showRuns } from '../ui/show-runs.ts';
import { KeysController } from '../ui/keys.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { refusalText } from '../ui/text/work-up-refusals.ts';
import { doneWords, emptyWords, meterWords, seenWords, stepWords } from '../ui/text/work-up-words.ts';
import { curvesOf, type FlaskCurves } from './curves.ts';
import { viewStyles } from './view-styles.ts';
import './controls.ts';
import './flask.ts';
import './receiver.ts';
import './titration.ts';
import './titres.ts';
import './what-if.ts';

/** The work-up bench: from a receiver of the run to a burette reading, step by step. */
@customElement('bf-workup')
export class WorkUpView extends LiveElement {
  static override styles = [controlStyles, hiddenStyles, viewStyles];

  @property({ attribute: false }) session: Session | undefined;
  /** Words on what was just run, until the next step or another run. */
  @state() private said: { readonly text: string; readonly plan: Plan | undefined } | undefined;
  private drawn: { state: WorkUpState; curves: FlaskCurves | undefined } | undefined;

  constructor() {
    super();
    new KeysController(this, {
      heading: 'Work-up',
      entries: [
        { key: 'n', does: 'next usual step', run: () => this.usual(true) },
        { key: 'z', does: 'undo the last step', run: () => this.session?.workUp.undo() },
      ],
    });
  }

  override render() {
    const { session } = this;
    if (!session) return nothing;
    const { store, workUp } = session;
    if (store.failure) return html`<h1>Work-up</h1><p role="alert">The model stopped: ${store.failure}</p>`;
    if (!store.plan || !store.moment) return html`<h1>Work-up</h1><p role="status">The column is being run …</p>`;
    if (!workUp.sample) return html`<h1>Work-up</h1><p>This scenario has no cobalt to titrate.</p>`;
    if (workUp.receivers.length === 0)
      return html`<h1>Work-up</h1><p>Nothing has run out of the column yet. Collect the cobalt on the <a href="#bench">bench</a> first${mayRunProcedure(store) ? html`, or <button type="button" @click=${this.runAll}>let the written procedure run to its end</button>` : '.'}</p>${this.kept(session)}`;
    const { state, bench } = workUp;
    const empty = workUp.receiver && emptyWords(workUp.receiver, workUp.receivers.length);
    return html`<h1>Work-up</h1>
      ${this.said?.plan === store.plan ? html`<p class="said">${this.said.text}</p>` : nothing}
      <div class="grid">
        <div class="from"><bf-receiver-taken .session=${session}></bf-receiver-taken></div>
        ${
          empty
            ? html`<div class="empty"><p role="status">${empty}</p>${this.kept(session)}</div>`
            : state && bench
              ? html`
          <div class="hand"><bf-flask .store=${workUp}></bf-flask></div>
          <div class="do">${this.order(bench)}<bf-dispense .bench=${bench} .next=${workUp.usual} .refusal=${workUp.refusal} @bf-step=${this.step}></bf-dispense></div>
          <div class="curves">${this.last(state, bench)}<bf-titration ?equivalence=${workUp.showsAmounts} .curves=${this.curves(state, bench)}></bf-titration></div>
          <div class="titres" @bf-next-run=${this.hear}><bf-titres .session=${session}></bf-titres></div>
          ${state.titres.some(({ pink }) => pink) ? html`<div class="if"><bf-what-if .session=${session}></bf-what-if></div>` : nothing}
          <div class="log">${this.log(state, bench)}</div>`
              : this.choice(workUp)
        }
      </div>`;
  }

  /** Before anything is in hand: what is done here, and with which beaker. */
  private choice({ receivers }: WorkUpStore) {
    return html`<div class="empty"><p>Here the cobalt of one receiver becomes a figure: neutralised, made blue with thiocyanate and acetone, titrated with EDTA, step by step. Which one?</p>
      <div class="row">${receivers.map(({ label = '', volume_mL }) => html`<button type="button" @click=${() => this.session?.workUp.take(label)}>Work up “${receiverName(label)}”, ${millilitres(volume_mL)}</button>`)}</div></div>`;
  }

  /** The cobalt of an earlier run is worked up as well. */
  private kept({ runs }: Session) {
    return runs.length === 0 ? nothing : html`<p><button type="button" @click=${() => showRuns(this)}>Open a kept run</button></p>`;
  }

  private order(bench: Bench) {
    const { workUp } = this.session ?? {};
    if (!workUp) return nothing;
    const next = workUp.usual;
    return html`<div class="order">
      <p>${next ? html`Usually next: <strong>${stepWords(next, bench)}</strong>` : 'The usual steps are done.'}</p>
      <div class="row">
        <button type="button" class=${next ? 'primary' : ''} ?disabled=${!next} @click=${() => this.usual(true)}>Do the next usual step</button>
        <button type="button" ?disabled=${!next} @click=${() => this.usual(false)}>Do all remaining steps</button>
        <button type="button" ?disabled=${!workUp.canUndo} @click=${() => workUp.undo()}>Undo</button>
        <button type="button" ?disabled=${!workUp.canRedo} @click=${() => workUp.redo()}>Redo</button>
        <button type="button" ?disabled=${!workUp.canUndo} @click=${() => workUp.startAgain()}>Start this eluate again</button>
      </div>
    </div>`;
  }

  /** The last step and the notes on it. */
  private last(state: WorkUpState, bench: Bench) {
    const event = state.events.at(-1);
    if (!event)
      return html`<p class="soft">An aliquot is what was pipetted onto the column; a portion is what is pipetted out of its eluate for one titration.</p><p class="soft">Usual order: transfer everything into a flask; add NaOH drop by drop until slightly basic, a little acetate, acetic acid to about pH 6, thiocyanate and acetone; titrate with EDTA until the last blue has gone and only the pink of the cobalt is left, faint or none where it is dilute. Or make it up in a volumetric flask and titrate portions of it.</p>`;
    return html`<div class="last" aria-live="polite"><p><strong>${doneWords(event, bench)}</strong>${event.reading ? html`: ${seenWords(event.reading)}, ${meterWords(event, event.reading)}.` : nothing}</p>
      ${event.notes.length === 0 ? nothing : html`<ul>${event.notes.map(noteLine)}</ul>`}</div>`;
  }

  private log({ events }: WorkUpState, bench: Bench) {
    if (events.length === 0) return nothing;
    const { refusals } = this.session?.workUp ?? { refusals: [] };
    return html`<details><summary>What was done: ${events.length} ${events.length === 1 ? 'step' : 'steps'}${refusals.length > 0 ? `, ${refusals.length} refused` : ''}</summary>
      <ol>${events.map((event) => html`<li>${doneWords(event, bench)}${event.reading ? html`: ${seenWords(event.reading)}, ${meterWords(event, event.reading)}, ${fixed(event.reading.temperature_C, 1)} °C` : nothing}</li>`)}</ol>
      ${refusals.length === 0 ? nothing : html`<ul>${refusals.map((event) => html`<li>${stepWords(event.action, bench)}: ${event.refused ? refusalText(event.refused) : ''}</li>`)}</ul>`}
    </details>`;
  }

  private curves(state: WorkUpState, bench: Bench): FlaskCurves | undefined {
    if (this.drawn?.state !== state) this.drawn = { state, curves: curvesOf(state, bench, (entry) => this.session?.workUp.stateBefore(entry)) };
    return this.drawn.curves;
  }

  private step(event: CustomEvent<{ action: WorkUpAction }>) {
    this.said = undefined;
    this.session?.workUp.act(event.detail.action);
  }

  private usual(one: boolean) {
    this.said = undefined;
    this.session?.workUp.actAsUsual(one);
  }

  private hear({ detail }: CustomEvent<string>) {
    this.said = { text: detail, plan: this.session?.store.plan };
    emit(this, 'bf-announce', detail);
    scrollTo(0, 0);
  }

  private async runAll() {
    const { store } = this.session ?? {};
    if (!store?.scenario) return;
    await store.playProcedure();
    store.pause();
    await store.seek(store.plan?.logEnd.time_min ?? 0);
    const label = this.session?.workUp.richest?.label;
    if (label !== undefined) this.session?.workUp.take(label);
    emit(this, 'bf-announce', 'The procedure was run to its end');
  }
}

function noteLine({ kind, text }: Note) {
  const sign = { caution: 'Caution', advice: 'Advice', seen: 'Seen' }[kind];
  return html`<li class=${kind}><span class="kind">${sign}:</span> ${text}</li>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-workup': WorkUpView;
  }
}
