import { html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { CONTROLS } from '../../sim/terms/controls.ts';
import { REASON_MAX } from '../../sim/handed/index.ts';
import { emit } from '../ui/emit.ts';
import { controlStyles } from '../ui/styles.ts';
import type { Question } from './occasion.ts';
import { coachStyles } from './styles.ts';
import '../ui/number.ts';
import '../ui/segmented.ts';

const OWN_WORDS = 'own';
const AHEAD = CONTROLS['prediction.volume_mL'];

/** What was answered: one of the choices, or a volume where there are none, and why. */
export interface Answer {
  readonly choice: string;
  readonly reason: string;
  readonly volume_mL?: number;
}

/**
 * A question before a decisive action: what will happen, and why.
 *
 * @fires bf-answer - the Answer; nothing is sent while a part of it is missing, which the card says
 * @fires bf-without - the action is wanted without an answer
 * @fires bf-not-now - the action is given up
 * @fires bf-volume - the volume that is being put down, mL
 */
@customElement('bf-question')
export class QuestionCard extends LitElement {
  static override styles = [controlStyles, coachStyles];

  @property({ attribute: false }) question: Question | undefined;
  /** Volume delivered when it is asked, mL: the smallest that can be predicted. */
  @property({ attribute: false }) least_mL = 0;
  @state() private choice = '';
  @state() private volume_mL = 0;
  @state() private reason = '';
  @state() private ownReason = '';
  @state() private missing = '';
  @query('h2') private heading!: HTMLElement | null;

  override willUpdate(changed: Map<PropertyKey, unknown>) {
    if (!changed.has('question')) return;
    this.choice = '';
    this.reason = '';
    this.ownReason = '';
    this.missing = '';
    this.volume_mL = this.least_mL;
  }

  override updated(changed: Map<PropertyKey, unknown>) {
    if (!changed.has('question') || !this.question) return;
    this.heading?.focus();
    this.scrollIntoView({ block: 'nearest' });
  }

  override render() {
    const { question } = this;
    if (!question) return nothing;
    const reasons = [...question.reasons.map((label) => ({ value: label, label })), { value: OWN_WORDS, label: 'in my own words' }];
    return html`<form class="card ask" @submit=${this.answer}>
      <h2 tabindex="-1">${question.before}</h2>
      <p class="text">${question.text}</p>
      ${
        question.choices.length > 0
          ? html`<bf-segmented label="prediction" label-unseen .choices=${question.choices} .value=${this.choice} @bf-change=${this.takeChoice}></bf-segmented>`
          : html`<bf-number slider .of=${AHEAD} .min=${this.least_mL} .max=${this.least_mL + AHEAD.max} .value=${this.volume_mL} @bf-input=${this.takeVolume} @bf-change=${this.takeVolume}></bf-number>`
      }
      <label>because
        <select @change=${this.takeReason}><option value="" ?selected=${this.reason === ''}>choose a reason</option>${reasons.map(
          ({ value, label }) => html`<option value=${value} ?selected=${this.reason === value}>${label}</option>`,
        )}</select></label>
      ${this.reason === OWN_WORDS ? html`<label>reason <input type="text" maxlength=${REASON_MAX} .value=${this.ownReason} @input=${this.typeReason} /></label>` : nothing}
      <p class="missing" role="alert">${this.missing}</p>
      <div class="row">
        <button type="submit" class="primary">Predict and do it</button>
        <button type="button" @click=${() => emit(this, 'bf-without', undefined)}>Do it without</button>
        <button type="button" class="plain" @click=${() => emit(this, 'bf-not-now', undefined)}>Not now</button>
      </div>
    </form>`;
  }

  private answer(event: Event) {
    event.preventDefault();
    const { question, choice, volume_mL } = this;
    if (!question) return;
    const reason = this.reason === OWN_WORDS ? this.ownReason.trim() : this.reason;
    if (question.choices.length > 0 && choice === '') this.missing = 'prediction: expected one of the choices, received none';
    else if (reason === '') this.missing = 'because: expected a reason, received none';
    else emit(this, 'bf-answer', { choice, reason, ...(question.choices.length === 0 ? { volume_mL } : {}) });
  }

  private takeChoice(event: CustomEvent<{ value: string }>) {
    this.choice = event.detail.value;
  }

  private takeVolume(event: CustomEvent<{ value: number }>) {
    this.volume_mL = event.detail.value;
    emit(this, 'bf-volume', this.volume_mL);
  }

  private takeReason(event: Event & { target: HTMLSelectElement }) {
    this.reason = event.target.value;
  }

  private typeReason(event: InputEvent & { target: HTMLInputElement }) {
    this.ownReason = event.target.value;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-question': QuestionCard;
  }
}
