import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { FAULT_KINDS, type FaultKind } from '../../sim/terms/fault-kinds.ts';
import { targetOf } from '../../sim/input/index.ts';
import { FAULT_GROUPS, FAULTS } from '../../sim/faults/index.ts';
import { imposedOn } from './imposed/impose.ts';
import { type Diagnosis, isHidden, REASON_MAX } from '../store/keep/mystery.ts';
import type { Session } from '../store/session.ts';
import type { Twin } from '../store/twin.ts';
import { LiveElement } from '../store/live-element.ts';
import { millilitres } from '../ui/text/format.ts';
import { controlStyles } from '../ui/styles.ts';
import { evidenceOf, tellingMoment } from './evidence.ts';
import type { Seen } from './twin/numbers.ts';
import { faultWords } from './severity.ts';
import { partStyles } from './styles.ts';
import './twin/numbers-part.ts';
import './twin/overlay.ts';

const NOTHING = 'nothing';
const NOTHING_SEEN = 'It is too early to tell: the sample is not in the bed yet, so the column looks much like a sound one.';
/** px from the top of a drawn glass to the ends of its bed. */
const BED = { top: 90, bottom: 262 } as const;

/** What is wrong with this column? The learner answers and gives a reason; then the fault is shown with the evidence for it. */
@customElement('bf-mystery')
export class MysteryPart extends LiveElement {
  static override styles = [
    controlStyles,
    partStyles,
    css`
      form { display: grid; gap: var(--gap-small); max-width: 44rem; margin-bottom: var(--gap-large); }
      label { display: grid; gap: 0.25em; }
      textarea { font: inherit; color: inherit; background: var(--sheet); border: 1px solid var(--edge); border-radius: var(--round); padding: 0.5em; min-height: 5em; }
      .column { height: 30rem; position: relative; max-width: 40rem; }
      .shown { display: grid; gap: var(--gap) var(--gap-large); margin-bottom: var(--gap); }
      .pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 12rem), 1fr)); gap: var(--gap); min-width: 0; }
      .side { height: 24.5rem; position: relative; overflow: hidden; }
      .side.hidden { visibility: hidden; }
      h3 { font-size: 1rem; }
      @media (min-width: 64rem) { .shown { grid-template-columns: minmax(0, 1fr) minmax(0, 1.1fr); } }
      .parts { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 26rem), 1fr)); gap: var(--gap-large); align-items: start; }
      .verdict { font-size: var(--text-large); font-weight: 600; }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @property({ attribute: false }) twin: Twin | undefined;
  @state() private kind: Diagnosis['kind'] | '' = '';
  @state() private reason = '';
  @state() private asked = '';
  /** True just after the answer: the run then moves to the moment that shows most. */
  private justSaid = false;

  override updated() {
    const { session, twin } = this;
    const { scenario, plan } = session?.store ?? {};
    if (!this.justSaid || !session || !scenario || !plan || !twin?.ran) return;
    this.justSaid = false;
    const found = tellingMoment({ scenario, plan }, twin.ran);
    if (found) void session.store.seek(found.time_min);
  }

  override render() {
    const { session } = this;
    const answer = session?.mystery?.answer;
    if (!session) return nothing;
    return isHidden(session.mystery) ? html`${this.question()}${this.seen(session)}` : answer ? this.revealed(session, answer) : nothing;
  }

  private question() {
    return html`<h2>What is wrong with this column?</h2>
      <p>Something may be wrong with it, or nothing. Play the run here or on the <a href="#bench">bench</a>, and look at bands, flow and effluent. Then say what is wrong and why. You can answer once.</p>
      <form @submit=${this.answer}>
        <label>What is wrong<select @change=${this.takeKind}>
          <option value="" ?selected=${this.kind === ''}>choose …</option>
          <option value=${NOTHING} ?selected=${this.kind === NOTHING}>nothing is wrong</option>
          ${Object.entries(FAULT_GROUPS).map(([group, label]) => html`<optgroup label=${label}>${FAULT_KINDS.filter((kind) => FAULTS[kind].group === Number(group)).map((kind) => html`<option value=${kind} ?selected=${kind === this.kind}>${FAULTS[kind].label}</option>`)}</optgroup>`)}
        </select></label>
        <label>Why: what did you see, and where<textarea maxlength=${REASON_MAX} .value=${this.reason} @input=${this.takeReason}></textarea></label>
        <div class="row"><button type="submit" class="primary">That is my answer</button><span class="problem" role="alert">${this.asked}</span></div>
      </form>`;
  }

  private seen({ store, exaggerate }: Session) {
    const { scenario, plan, moment } = store;
    if (!scenario || !plan || !moment) return nothing;
    return html`<div class="parts">
        <div class="column"><bf-unrolled .scenario=${scenario} .moment=${moment} .labels=${plan.labels} .exaggerate=${exaggerate} .bedTop=${60} .bedBottom=${330}></bf-unrolled></div>
        <bf-overlay .run=${{ scenario, plan }} .now_mL=${moment.delivered_mL}></bf-overlay>
      </div>
      ${isTooLittle({ scenario, plan, moment }) ? html`<p role="status">${NOTHING_SEEN} Load the sample and wash it, or play the procedure. Then look at bands, flow and effluent.</p>` : nothing}
      <bf-symptoms .run=${{ scenario, plan, moment }}></bf-symptoms>`;
  }

  private revealed(session: Session, answer: Diagnosis) {
    const { store } = session;
    const { scenario, plan, moment } = store;
    if (!scenario || !plan || !moment) return nothing;
    const imposed = imposedOn(session);
    const kinds = [...new Set(imposed.map(({ fault }) => fault.kind))];
    const length = scenario.values['bed.length_cm'];
    const { twin } = this;
    const other = twin?.ran && twin.moment && { ...twin.ran, moment: twin.moment };
    const run = { scenario, plan, moment };
    return html`<h2>What was wrong with this column</h2>
      <p class="verdict">${verdict(answer.kind, kinds)}</p>
      <dl>
        <dt>it was</dt><dd>${imposed.length === 0 ? 'nothing: the bed and the handling were sound' : imposed.map(({ fault }) => faultWords(fault, length)).join('; ')}</dd>
        <dt>you said</dt><dd>${nameOf(answer.kind)}</dd>
        <dt>because</dt><dd>${answer.reason}</dd>
        ${kinds.map((kind) => html`<dt>signs</dt><dd>${FAULTS[kind].signs}</dd>`)}
      </dl>
      ${isTooLittle(run) ? html`<p>${NOTHING_SEEN} Play the run now, and look for the signs.</p>` : nothing}
      ${other ? this.beside(session, run, other) : html`<p role="status">The healthy twin is being computed …</p>`}
      <bf-symptoms .run=${run} .twin=${twin?.seen}></bf-symptoms>`;
  }

  /** First what the eye sees: both columns at the same volume and both effluents; then the numbers. */
  private beside({ exaggerate }: Session, run: Seen, twin: Seen) {
    const awaited = !this.twin?.seen;
    const column = (
      name: string,
      { scenario, plan, moment }: Seen,
      delivered_mL: number | undefined = moment.delivered_mL,
      hidden = false,
    ) => html`<div><h3>${name}${hidden ? ' is being computed …' : html`, ${millilitres(delivered_mL)} delivered`}</h3>
      <div class="side ${hidden ? 'hidden' : ''}"><bf-glass .scenario=${scenario} .moment=${moment} .labels=${plan.labels} .exaggerate=${exaggerate} .bedTop=${BED.top} .bedBottom=${BED.bottom}></bf-glass></div></div>`;
    return html`<div class="shown"><div class="pair">${column('This column', run)}${column('A sound one', twin, this.twin?.delivered_mL, awaited)}</div>
      <bf-overlay .run=${run} .twin=${twin} .now_mL=${run.moment.delivered_mL}></bf-overlay></div>
      ${this.telling(run, twin)}
      <h3>The evidence in numbers</h3>
      ${isTooLittle(run) || awaited ? nothing : html`<ul>${evidenceOf(run, twin).map((line) => html`<li>${line}</li>`)}</ul>`}`;
  }

  private telling(run: Seen, twin: Seen) {
    const found = tellingMoment(run, twin);
    if (!found) return nothing;
    return html`<p><button type="button" @click=${() => this.session?.store.seek(found.time_min)}>Look at ${millilitres(found.delivered_mL)}, where the bands are furthest apart</button></p>`;
  }

  private takeKind(event: Event & { target: HTMLSelectElement }) {
    const { value } = event.target;
    this.kind = value === NOTHING ? NOTHING : (FAULT_KINDS.find((kind) => kind === value) ?? '');
  }

  private takeReason(event: Event & { target: HTMLTextAreaElement }) {
    this.reason = event.target.value;
  }

  private answer(event: Event) {
    event.preventDefault();
    const { kind, session } = this;
    const reason = this.reason.trim();
    if (kind === '' || reason === '') {
      this.asked = kind === '' ? 'What is wrong: expected a choice.' : 'Why: expected a few words on what you saw.';
      return;
    }
    const { scenario, plan, moment } = session?.store ?? {};
    if (!session || !scenario || !plan || !moment) return;
    // Once a try that counted has ended, it shows no more than it did.
    const canShowMore = !session.given || session.store.fixed;
    if (canShowMore && isTooLittle({ scenario, plan, moment })) {
      this.asked = `${NOTHING_SEEN} Your answer is kept for when it is.`;
      return;
    }
    this.asked = '';
    this.justSaid = true;
    session.store.pause();
    session.diagnose({ kind, reason, time_min: session.store.now });
  }
}

/** Whether the sample has not come into the bed yet: no fault can show in a band that is not there. */
function isTooLittle({ scenario, moment }: Seen): boolean {
  const { loaded, onBed, inTip, receivers } = moment.results;
  const ion = targetOf(scenario);
  if (!ion) return false;
  const key = `${ion}_mmol` as const;
  const arrived = [onBed, inTip, ...receivers].reduce((sum, one) => sum + Number(one[key] ?? 0), 0);
  return !((loaded[key] ?? 0) > 0) || arrived < 0.5 * (loaded[key] ?? 0);
}

function nameOf(kind: Diagnosis['kind']): string {
  return kind === NOTHING ? 'nothing is wrong' : FAULTS[kind].label;
}

function verdict(said: Diagnosis['kind'], kinds: readonly FaultKind[]): string {
  if (said === NOTHING) return kinds.length === 0 ? 'Right: nothing was wrong.' : 'Not right: something was wrong.';
  if (kinds.length === 0) return 'Not right: nothing was wrong.';
  if (kinds.includes(said)) return kinds.length === 1 ? 'Right.' : 'Right, but there was more than one fault.';
  return kinds.some((kind) => FAULTS[kind].group === FAULTS[said].group)
    ? `Nearly: the right kind of mistake (${FAULT_GROUPS[FAULTS[said].group]}), but another fault.`
    : 'Not right.';
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-mystery': MysteryPart;
  }
}
