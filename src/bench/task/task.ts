import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { type FractionTargets, progressOf } from '../../../sim/history/index.ts';
import { checklistOf, isWashed, type Offer, offerFor, type Step } from '../../../sim/teach/index.ts';
import { sectionOf } from '../../../sim/terms/geometry.ts';
import type { Log, Scenario } from '../../../sim/terms/types.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import { LiveElement } from '../../store/live-element.ts';
import { isOver } from '../../store/over.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { emit } from '../../ui/emit.ts';
import type { Message } from '../../ui/message.ts';
import { KeysController } from '../../ui/keys.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import { fixed } from '../../ui/text/format.ts';
import type { putTooLate } from '../debrief/ended.ts';
import type { PackingPanel } from '../packing/packing.ts';
import { amiss_cm, awaitsResin, beganEmpty, portionsIn, resinIn } from '../packing/empty.ts';
import { readingsOf } from '../readings.ts';
import { askedWords } from '../../ui/text/task/asked-words.ts';
import { ON_ITS_WAY } from '../words.ts';
import { isCarriedOut } from './carried-out.ts';
import { MEND_FIRST, mendsFirst } from './mends-first.ts';
import { Settling } from './settling.ts';
import { amountWords, offerWords, stepWords } from './step-words.ts';
import { taskStyles } from './task-styles.ts';

const SIGNS = { done: '✓', now: '→', open: '○', later: '', missed: '–' } as const;
const SAID = { done: 'done: ', now: 'next: ', open: 'possible now: ', later: '', missed: 'not done: ' } as const;

/**
 * The task as a list that ticks itself, what one press does for the step in hand, and what happens if nothing is done.
 *
 * @fires bf-carry-out - {actions} to be taken one after the other
 * @fires bf-mend - the bed is to be mended before anything is poured
 * @fires bf-say - {text, kind} why a press has to wait
 */
@customElement('bf-task')
export class TaskPanel extends LiveElement {
  static override styles = [controlStyles, hiddenStyles, taskStyles];

  @property({ attribute: false }) store: ColumnStore | undefined;
  @property({ attribute: false }) targets: FractionTargets | undefined;
  /** A caution takes the room below: what can happen next makes way, the readings stay. */
  @property({ type: Boolean, reflect: true }) brief = false;
  /** Delivered volume at which the guide would start the weaker eluent; no press washes beyond it. */
  @property({ attribute: false }) washTo_mL: number | undefined;
  /** Judges which receiver was put too late, once it has come: not before a run is over. */
  @state() private putTooLate: typeof putTooLate | undefined;
  /** The same for what is told of a wash: not before something has run. */
  @state() private wash: typeof import('./next.ts') | undefined;
  private readonly settling = new Settling();
  /** Of a day with several: the aliquot in hand, and that of the drawing before. */
  private aliquot = 0;
  private told = 0;
  /** Until its code has come it does nothing. */
  @query('bf-packing') private packing: Partial<Pick<PackingPanel, 'next'>> | null | undefined;

  constructor() {
    super();
    new KeysController(this, { heading: 'Task', entries: [{ key: 'n', does: 'do what is next in the task', run: () => this.next() }] });
  }

  override render() {
    const { store, targets } = this;
    const { scenario, moment } = store ?? {};
    if (!store || !scenario || !moment) return nothing;
    const empty = awaitsResin(scenario, moment);
    const filled = !empty || moment.delivered_mL > 0;
    const over = isOver(store);
    const washTo_mL = this.washTo(scenario, moment);
    const steps = this.steps(scenario, moment, over, washTo_mL);
    const at = steps.findIndex(({ state }) => state === 'now');
    // Of a day with several aliquots only the one in hand is listed, so that what can happen next stays in sight below it.
    const starts = steps.flatMap(({ role }, i) => (role === 'condition' ? [i] : []));
    const aliquot = starts.filter((start) => start <= at).length;
    const shown = aliquot > 0 ? steps.slice(starts[aliquot - 1], starts[aliquot]) : steps;
    this.aliquot = over ? 0 : aliquot;
    const late = over && store.plan && targets && this.putTooLate?.(store.plan, targets, progressOf(scenario, store.plan.events).eluent_mL);
    this.toggleAttribute('data-filling', empty);
    // The heading has no room on a phone: the step in hand says which aliquot it belongs to.
    this.style.setProperty('--aliquot', starts.length > 1 && aliquot > 0 ? `'Aliquot ${aliquot}: '` : "''");
    return html`<section aria-labelledby="heading">
        <h2 id="heading">The task${starts.length > 1 && aliquot > 0 ? `: aliquot ${aliquot} of ${starts.length}` : ''}</h2>
        <p class="purpose ${targets ? 'long' : ''}">${scenario.purpose}</p>
        ${targets ? html`<p class="purpose short">${askedWords(targets)}</p>` : nothing}
        ${steps.length === 0 && !beganEmpty(scenario) ? nothing : html`<ol>${beganEmpty(scenario) ? filling(store, scenario, moment) : nothing}${shown.map((step) => (step.label && step.label === late ? lateStep(step, scenario) : this.step(step, scenario, moment, isCarriedOut(store, moment), washTo_mL)))}</ol>`}
      </section>
      ${filled ? html`<section class="ahead" aria-labelledby="ahead"><h2 id="ahead">What can happen next</h2><p><bf-ahead .scenario=${scenario} .at=${moment} .steps=${steps} ?over=${over}></bf-ahead></p></section>` : nothing}
      ${readings(store, moment)}`;
  }

  private steps(scenario: Scenario, moment: Moment, over: boolean, washTo_mL: number | undefined): Step[] {
    return afterFilling(checklistOf(scenario, moment.events, over, isWashed(scenario, moment, washTo_mL)), scenario, moment);
  }

  /** Where the wash should end: by the guide, or else by what the ruler shows. */
  private washTo(scenario: Scenario, moment: Moment): number | undefined {
    return this.washTo_mL ?? this.wash?.washToByEye(scenario, moment);
  }

  private step(due: Step, scenario: Scenario, at: Moment, underWay: boolean, washTo_mL: number | undefined) {
    const mends = mendsFirst(at, due);
    const step: Step = mends === 'must' && due.state === 'open' ? { ...due, state: 'later' } : due;
    const isNow = step.state === 'now';
    const offer = mends === 'must' ? undefined : offerFor(scenario, at, step, washTo_mL);
    const waits = underWay && step.liquid !== '';
    const share = step.planned_mL > 0 ? Math.min(1, step.poured_mL / step.planned_mL) : 0;
    return html`<li class=${step.state} aria-current=${step.state === 'now' ? 'step' : nothing}>
      <span class="sign" aria-hidden="true">${SIGNS[step.state]}</span>
      <span class="what"><span class="unseen">${SAID[step.state]}</span>${stepWords(step, scenario)}</span>
      <span class="amount">${amountWords(step)}</span>
      ${isNow && step.planned_mL > 0 ? html`<progress max="1" .value=${share} aria-label=${stepWords(step, scenario)}></progress>` : nothing}
      ${mends && isNow ? html`<button type="button" class="primary" @click=${this.mend}>${MEND_FIRST}</button>` : nothing}
      ${offer ? html`<button type="button" class=${isNow && !mends ? 'primary' : ''} aria-disabled=${waits} @pointerdown=${this.settling.take} @click=${(event: MouseEvent) => this.press(event, offer)}>${(waits && this.underWay(step, scenario, at)) || offerWords(offer, scenario)}</button>` : nothing}
    </li>`;
  }

  /** The press of the step in hand tells what it waits for. */
  private underWay({ state }: Step, scenario: Scenario, { entry }: Moment): string | undefined {
    return state === 'now' ? this.wash?.underWayWords(scenario, this.store?.log.slice(entry) ?? []) : undefined;
  }

  override updated() {
    this.settling.drawn(
      [...this.renderRoot.querySelectorAll('li > button')].map((press) => [press, press.parentElement?.querySelector('.what')?.textContent ?? ''] as const),
    );
    const collected = this.aliquot > this.told && this.told > 0 && this.store?.scenario ? this.wash?.collectedIn(this.store.scenario, this.told) : undefined;
    if (collected) emit<Message>(this, 'bf-say', collected);
    this.told = this.aliquot;
    if (!this.wash && this.store?.log.length) void import('./next.ts').then((wash) => (this.wash = wash));
    if (this.store && !this.putTooLate && isOver(this.store)) void import('../debrief/ended.ts').then((ended) => (this.putTooLate = ended.putTooLate));
  }

  private next() {
    const { store } = this;
    const { scenario, moment } = store ?? {};
    if (!store || !scenario || !moment) return;
    if (isCarriedOut(store, moment)) return this.sayOnItsWay();
    if (awaitsResin(scenario, moment) && moment.delivered_mL === 0) return this.packing?.next?.();
    const washTo_mL = this.washTo(scenario, moment);
    const due = this.steps(scenario, moment, isOver(store), washTo_mL).find(({ state }) => state === 'now');
    if (due && mendsFirst(moment, due)) return this.mend();
    const offer = due && offerFor(scenario, moment, due, washTo_mL);
    if (offer) this.do(offer);
  }

  private mend() {
    emit(this, 'bf-mend', undefined);
  }

  /** The second press of a double one, or of a finger, was not meant for what has come to lie there. */
  private press(event: MouseEvent, offer: Offer) {
    if (this.settling.hasty(event, this.store?.busy ?? false)) return;
    const { store } = this;
    if (store?.moment && offer.step.liquid !== '' && isCarriedOut(store, store.moment)) this.sayOnItsWay();
    else this.do(offer);
  }

  private sayOnItsWay() {
    emit<Message>(this, 'bf-say', { text: ON_ITS_WAY, kind: 'note' });
  }

  private do({ actions }: Offer) {
    emit<{ actions: Log }>(this, 'bf-carry-out', { actions });
  }
}

function lateStep(step: Step, scenario: Scenario) {
  return html`<li class="late"><span aria-hidden="true">✗</span><span>${stepWords(step, scenario)}: too late</span></li>`;
}

/** The first item where the tube was empty; ticked if the resin stands about as high as was asked for. */
function filling(store: ColumnStore, scenario: Scenario, moment: Moment) {
  const { values } = scenario;
  const awaits = awaitsResin(scenario, moment);
  // What was poured, not how it stands now: acid shrinks it.
  const stands_cm = resinIn(moment) / sectionOf(values);
  const state = awaits ? (moment.delivered_mL > 0 ? 'open' : 'now') : amiss_cm(scenario, stands_cm) === 0 ? 'done' : 'missed';
  return html`<li class="filling ${state}" aria-current=${state === 'now' ? 'step' : nothing}>
    <span class="sign" aria-hidden="true">${SIGNS[state]}</span>
    <span class="what"><span class="unseen">${SAID[state]}</span>Fill the tube to about ${fixed(values['bed.length_cm'], 0)} cm</span>
    ${awaits ? html`<bf-packing .store=${store}></bf-packing>` : html`<span class="amount">${fixed(stands_cm, 1)} cm</span>`}
  </li>`;
}

/** While the tube is being filled nothing else is due; with resin in it the first step may be begun, and is next once the drip was seen. */
function afterFilling(steps: Step[], scenario: Scenario, moment: Moment): Step[] {
  if (!awaitsResin(scenario, moment) || moment.delivered_mL > 0) return steps;
  const state = portionsIn(moment) > 0 ? 'open' : 'later';
  return steps.map((step) => (step.state === 'now' ? { ...step, state } : { ...step, state: 'later' }));
}

function readings(store: ColumnStore, moment: Moment) {
  return html`<dl>${readingsOf(store, moment).map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-task': TaskPanel;
  }
}
