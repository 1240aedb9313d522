import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import { live } from 'lit/directives/live.js';
import type { Scenario } from '../../../sim/terms/types.ts';
import type { Moment } from '../../store/threads/planner.ts';
import type { Plan } from '../../../sim/history/index.ts';
import type { Session } from '../../store/session.ts';
import type { Twin } from '../../store/twin.ts';
import { LiveElement } from '../../store/live-element.ts';
import { fixed, millilitres, quantity, withUnit } from '../../ui/text/format.ts';
import { emit } from '../../ui/emit.ts';
import { imposedOn } from '../imposed/impose.ts';
import { controlStyles } from '../../ui/styles.ts';
import { partStyles } from '../styles.ts';
import { capital } from '../../../sim/terms/capital.ts';
import '../../ui/segmented.ts';
import { facing } from './facing.ts';
import './clock.ts';
import { costWords } from './cost.ts';
import './numbers-part.ts';
import './overlay.ts';
import './severity-slider.ts';

/** Longest question that is asked, characters: two lines of large type at 1280 px hold most of it. */
const QUESTION_MAX = 160;
const USUAL_QUESTION = 'What is different in the column on the left, and what will follow from it?';
const QUESTION = /^Question to the class:\s*/;

/** A question, and the scenario that it was typed for. */
export interface Asked {
  readonly of: string;
  readonly text: string;
}

type Drawn = 'unrolled' | 'glass';
type Laid = 'over' | 'beside';

const DRAWN: readonly { value: Drawn; label: string }[] = [
  { value: 'unrolled', label: 'unrolled' },
  { value: 'glass', label: 'glass' },
];
const LAID: readonly { value: Laid; label: string }[] = [
  { value: 'over', label: 'overlaid, with the difference' },
  { value: 'beside', label: 'side by side' },
];
/** px from the top of a drawn column to the ends of its bed; the glass needs room for the vessel below. */
const BED = { unrolled: { top: 60, bottom: 300 }, glass: { top: 90, bottom: 262 } } as const;
/** The run is at its end when no more than this is left of it, min: a hundredth of a second. */
const AT_END_MIN = 1e-4;
/** A class reads from far: columns are drawn this many times larger, with all that is written on them. */
const PROJECTED = 1.35;
const PROJECTED_BED = { unrolled: { top: 52, bottom: 296 }, glass: { top: 78, bottom: 236 } } as const;

/**
 * The run beside its healthy twin at the same delivered volume: columns and curves.
 *
 * @fires bf-project - {on} to be shown to a class, or no longer
 * @fires bf-asked - the question to the class as the teacher words it
 */
@customElement('bf-twin')
export class TwinPart extends LiveElement {
  static override styles = [
    controlStyles,
    partStyles,
    css`
      .view { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap) var(--gap-large); }
      .pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 14rem), 1fr)); gap: var(--gap); min-width: 0; }
      @media (min-width: 64rem) {
        .view.over { grid-template-columns: minmax(0, 1fr) minmax(0, 1.1fr); }
      }
      .column { height: 24.5rem; position: relative; overflow: hidden; }
      .question { flex: 1; margin: 0; padding: 0; border: 0; border-bottom: 1px dashed var(--edge); background: none; color: inherit; font: inherit; font-size: 1.75rem; font-weight: 600; line-height: 1.25; resize: none; field-sizing: content; }
      .projected { display: grid; gap: var(--gap); }
      .projected h2 { font-size: 1.5rem; display: grid; gap: 0; }
      .projected h2 span { font-size: 1.1rem; color: var(--ink); }
      .projected .column { zoom: ${PROJECTED}; height: ${27 / PROJECTED}rem; }
      .projected .row .row { flex: none; }
      .projected button { white-space: nowrap; }
      .projected .row { justify-content: space-between; flex-wrap: nowrap; align-items: start; }
      .projected bf-overlay { --text-small: 1.3rem; }
      .projected .foot { display: flex; gap: var(--gap-large); align-items: center; --text-small: 1.1rem; }
      .projected .foot bf-fault-clock { flex: 1; }
      .cost { margin: 0; font-size: 1.3rem; line-height: 1.3; min-height: 2.6em; padding-left: 2rem; }
      .cost strong { display: block; }
      .unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
      .figure { height: 27rem; min-width: 0; }
      .awaited { position: relative; }
      .awaited .column { visibility: hidden; }
      .awaiting { position: absolute; }
      h2 { font-size: 1rem; display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: baseline; }
      h2 span { font-weight: 400; color: var(--soft); font-size: var(--text-small); }
      .controls { margin-bottom: var(--gap-small); align-items: end; }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @property({ attribute: false }) twin: Twin | undefined;
  /** For a class: large type, nothing but columns, curves and the question. */
  @property({ type: Boolean }) projected = false;
  @state() private drawn: Drawn = 'glass';
  @state() private laid: Laid = 'over';
  /** The class has answered: the projector may show the rest of the run. */
  @state() private followed = false;
  /** The question as the teacher words it. */
  @property({ attribute: false }) asked: Asked | undefined;

  override render() {
    const { session, twin } = this;
    const { scenario, plan, moment } = session?.store ?? {};
    if (!session || !scenario || !plan || !moment) return nothing;
    if (this.projected) return this.projection(session, scenario, plan, moment);
    return html`
      <div class="row controls">
        <bf-fault-severity .session=${session}></bf-fault-severity>
        <bf-segmented label="columns drawn as" .value=${this.drawn} .choices=${DRAWN} @bf-change=${this.takeDrawn}></bf-segmented>
        <bf-segmented label="streaks and effluent" .value=${this.laid} .choices=${LAID} @bf-change=${this.takeLaid}></bf-segmented>
        <button type="button" @click=${this.project}>For the projector</button>
      </div>
      ${twin?.failure ? html`<p class="problem" role="alert">Twin: ${twin.failure}</p>` : nothing}
      <div class="view ${this.laid}">${this.pair(scenario, plan, moment)}${this.laid === 'over' ? this.over(scenario, plan, moment) : this.beside(scenario, plan, moment)}</div>
      <p class="soft legend">The twin: the same column and the same actions without the fault, on a bed that is kept wet. Columns: hatched where the bed has run dry, bubbles where gas is trapped, dots where resin is missing. ${this.laid === 'over' ? 'Bands: filled in this run, hatched in the healthy twin.' : 'Streaks: hatched is still to come.'} Unrolled: the wall of the bed laid flat, once around from left to right.</p>
      <bf-symptoms .run=${{ scenario, plan, moment }} .twin=${twin?.seen}></bf-symptoms>`;
  }

  private pair(scenario: Scenario, plan: Plan, moment: Moment) {
    const { twin } = this;
    const { ran, seen } = twin ?? {};
    // A column on its way to the moment of the run is hidden, not dropped: drawing it anew takes longer than the way.
    return html`<div class="pair">
      <div>${this.heading('This run', moment, moment.delivered_mL)}${this.column(scenario, moment, plan)}</div>
      <div class=${seen ? '' : 'awaited'}>${this.heading('Healthy twin', seen?.moment, twin?.delivered_mL)}${seen ? nothing : html`<p class="awaiting" role="status">The twin is being computed …</p>`}${ran && twin?.moment ? this.column(ran.scenario, twin.moment, ran.plan) : nothing}</div>
    </div>`;
  }

  private projection(session: Session, scenario: Scenario, plan: Plan, moment: Moment) {
    const written = scenario.notice.find((line) => QUESTION.test(line))?.replace(QUESTION, '');
    const question = this.asked?.of === scenario.id ? this.asked.text : written ? capital(written) : USUAL_QUESTION;
    const hidden = this.aheadHidden();
    return html`<div class="projected">
      <div class="row"><textarea class="question" rows="2" maxlength=${QUESTION_MAX} aria-label="Question to the class, can be changed" spellcheck="false" .value=${live(question)}
        @input=${(event: InputEvent & { target: HTMLTextAreaElement }) => emit<Asked>(this, 'bf-asked', { of: scenario.id, text: event.target.value })}></textarea>
        <div class="row"><button type="button" class=${hidden ? 'primary' : ''} ?disabled=${this.atEnd()} @click=${this.follow}>${hidden || this.atEnd() ? 'Show what follows' : 'Hide what follows'}</button><button type="button" @click=${this.project}>Back</button></div></div>
      <div class="view over">${this.pair(scenario, plan, moment)}<div>${this.over(scenario, plan, moment)}<p class="cost" role="status">${guard([hidden, plan, this.twin?.ran], () => (hidden ? nothing : this.cost(scenario, plan)))}</p></div></div>
      <div class="foot"><bf-fault-clock brief .store=${session.store}></bf-fault-clock><bf-fault-severity unnamed .session=${session}></bf-fault-severity></div>
    </div>`;
  }

  /** The question asks what will follow: as long as the run is not at its end, the curves stop at now. */
  private aheadHidden(): boolean {
    return this.projected && !this.followed && !this.atEnd();
  }

  private atEnd(): boolean {
    const { store } = this.session ?? {};
    return (store?.now ?? 0) >= (store?.plan?.logEnd.time_min ?? 0) - AT_END_MIN;
  }

  private follow() {
    this.followed = !this.followed;
  }

  private cost(scenario: Scenario, plan: Plan) {
    const [first, ...others] = costWords({ scenario, plan }, this.twin?.ran);
    return first ? html`<strong>${first}</strong>${others}` : nothing;
  }

  private project() {
    this.followed = false;
    emit(this, 'bf-project', { on: !this.projected });
  }

  private heading(name: string, moment: Moment | undefined, delivered_mL: number | undefined) {
    if (!moment || delivered_mL === undefined) return html`<h2>${name}</h2>`;
    const { flow, level_cm } = moment;
    if (this.projected) return html`<h2>${name}<span>${millilitres(delivered_mL)} delivered</span></h2>`;
    return html`<h2>${name}<span>${flow > 0 ? quantity(flow, 'mL/min', 2) : 'no flow'}, ${millilitres(delivered_mL)} delivered, ${withUnit(fixed(level_cm * 10, 0), 'mm')} above the bed</span></h2>`;
  }

  private column(scenario: Scenario, moment: Moment, plan: Plan) {
    const { session } = this;
    const { exaggerate = false, store } = session ?? {};
    const from_deg = session ? facing(imposedOn(session).map(({ fault }) => fault)) : 0;
    const { top, bottom } = (this.projected ? PROJECTED_BED : BED)[this.drawn];
    return html`<div class="column ${this.drawn}">${
      this.drawn === 'glass'
        ? html`<bf-glass .scenario=${scenario} .moment=${moment} .labels=${plan.labels} .exaggerate=${exaggerate} .bedTop=${top} .bedBottom=${bottom} .from_deg=${from_deg}
          .playing=${store?.playing ?? false} .speed=${store?.speed ?? 1}></bf-glass>`
        : html`<bf-unrolled .scenario=${scenario} .moment=${moment} .labels=${plan.labels} .exaggerate=${exaggerate} .bedTop=${top} .bedBottom=${bottom}></bf-unrolled>`
    }</div>`;
  }

  private over(scenario: Scenario, plan: Plan, moment: Moment) {
    return html`<bf-overlay .run=${{ scenario, plan }} .twin=${this.twin?.ran} .now_mL=${moment.delivered_mL} ?projected=${this.projected} .aheadHidden=${this.aheadHidden()}></bf-overlay>`;
  }

  private beside(scenario: Scenario, plan: Plan, moment: Moment) {
    const { seen } = this.twin ?? {};
    return html`<div class="pair">
      <div class="figure">${this.figure(scenario, plan, moment)}</div>
      <div class="figure">${seen ? this.figure(seen.scenario, seen.plan, seen.moment) : nothing}</div>
    </div>`;
  }

  private figure(scenario: Scenario, plan: Plan, moment: Moment) {
    return html`<bf-figure .scenario=${scenario} .plan=${plan} .now_mL=${moment.delivered_mL} .now_min=${moment.time_min} .showForecast=${true}></bf-figure>`;
  }

  private takeDrawn(event: CustomEvent<{ value: string }>) {
    this.drawn = event.detail.value === 'glass' ? 'glass' : 'unrolled';
  }

  private takeLaid(event: CustomEvent<{ value: string }>) {
    this.laid = event.detail.value === 'beside' ? 'beside' : 'over';
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-twin': TwinPart;
  }
}
