import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Action } from '../../sim/terms/types.ts';
import type { Prediction } from '../../sim/handed/index.ts';
import type { Session } from '../store/session.ts';
import { LiveElement } from '../store/live-element.ts';
import { bestStart, deliveredAtEnd, progressOf } from '../../sim/history/index.ts';
import { announce } from '../ui/announce.ts';
import { emit } from '../ui/emit.ts';
import { fixed } from '../ui/text/format.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { Guide } from './guide.ts';
import { type Bench, occasionOf, type Question, questionOf } from './occasion.ts';
import { type Outcome, outcomeOf } from './outcome.ts';
import type { Answer } from './question-card.ts';
import { coachStyles } from './styles.ts';
import { warningsOf } from './warnings.ts';
import type { Guidance } from './windows.ts';
import './question-card.ts';

const NO_GUIDANCE: Guidance = { window: undefined, startWindow: undefined };

/**
 * Asks for a prediction before a decisive action, shows it against the outcome afterwards, and in `guide` warns. It never
 * stands in the way: every action can be taken without an answer.
 *
 * @fires bf-go - {action, taken} the held action goes to the bench; `taken` is told whether it was refused
 * @fires bf-drop - the held action is given up
 * @fires bf-marks - marks for the volume axis
 * @fires bf-guidance - the windows, for the figure
 */
@customElement('bf-coach')
export class Coach extends LiveElement {
  static override styles = [controlStyles, hiddenStyles, coachStyles];

  @property({ attribute: false }) session: Session | undefined;
  /** The action that waits. */
  @property({ attribute: false }) held: Action | undefined;
  @state() private question: Question | undefined;
  @state() private volume_mL = 0;
  @state() private guidance = NO_GUIDANCE;
  private readonly guide = new Guide();
  private readonly closed = new Set<Prediction>();
  private readonly told = new Set<Prediction>();
  private resume = false;
  private marked = '';
  private warned = '';
  /** Start of the weaker eluent of the run in which the clock was stopped for the receiver. */
  private haltedAt: number | undefined;

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.guide.forget();
  }

  override willUpdate(changed: Map<PropertyKey, unknown>) {
    if (changed.has('held')) this.consider();
  }

  override updated() {
    const { bench, session } = this;
    this.toggleAttribute('idle', this.shadowRoot?.querySelector('.card, bf-question') === null);
    if (!bench || !session) return;
    if (session.coach === 'guide') this.follow(bench, session);
    else if (this.guidance !== NO_GUIDANCE) this.take(NO_GUIDANCE);
    this.tellMarks(bench, session);
  }

  override render() {
    const { bench, session } = this;
    if (!bench || !session || session.coach === 'off') return nothing;
    if (this.question) return this.asking(this.question);
    const shown = this.newest(bench, session);
    const lines = session.coach === 'guide' ? warningsOf(bench, this.guidance) : [];
    return html`
      ${lines.length > 0 ? html`<div class="card warn"><h2>Guide</h2>${lines.map((line) => html`<p>${line}</p>`)}</div>` : nothing}
      ${shown ? this.compared(shown.prediction, shown.outcome) : nothing}`;
  }

  private get bench(): Bench | undefined {
    const { store, targets } = this.session ?? {};
    const { scenario, plan, moment } = store ?? {};
    return scenario && plan && moment && targets ? { scenario, plan, moment, targets } : undefined;
  }

  private asking(question: Question) {
    return html`<bf-question .question=${question} .least_mL=${this.least} @bf-answer=${this.answer} @bf-without=${() => this.release(undefined)} @bf-not-now=${this.giveUp}
      @bf-volume=${this.takeVolume}></bf-question>`;
  }

  private compared(prediction: Prediction, outcome: Outcome) {
    return html`<section class="card ${outcome.agrees ? 'good' : ''}" aria-labelledby="outcome">
      <h2 id="outcome">${outcome.agrees ? 'As you said' : 'Not as you said'}</h2>
      <dl><dt>you</dt><dd>${outcome.said}</dd><dt>the run</dt><dd>${outcome.happened}</dd></dl>
      <p>${outcome.why}</p>
      <button type="button" @click=${() => this.close(prediction)}>Close</button>
    </section>`;
  }

  private get least(): number {
    return Number(fixed(this.bench?.moment.delivered_mL ?? 0, 1).replace(/[^\d.]/g, ''));
  }

  /** Whether the action that came is worth a question; if not it goes on at once. */
  private consider() {
    const { held, bench, session } = this;
    this.question = undefined;
    if (!held || !bench || !session) return;
    const occasion = session.coach === 'off' ? undefined : occasionOf(held, bench);
    if (occasion === undefined) return void Promise.resolve().then(() => this.release(undefined));
    this.question = questionOf(occasion, bench);
    this.volume_mL = this.least;
    this.resume = session.store.playing;
    session.store.pause();
  }

  private answer({ detail }: CustomEvent<Answer>) {
    const { question, bench } = this;
    if (question && bench) this.release({ occasion: question.occasion, entry: 0, asked_mL: bench.moment.delivered_mL, ...detail });
  }

  private release(prediction: Prediction | undefined) {
    const { held: action, session, resume } = this;
    this.question = undefined;
    this.resume = false;
    if (!action || !session) return;
    const taken = (refused: boolean): void => {
      if (refused) return;
      if (prediction) session.predict({ ...prediction, entry: session.store.log.length - 1 });
      if (resume) session.store.play();
    };
    emit(this, 'bf-go', { action, taken });
  }

  private giveUp() {
    this.question = undefined;
    emit(this, 'bf-drop', undefined);
    if (this.resume) this.session?.store.play();
    this.resume = false;
  }

  /** The last prediction that the run has answered, unless it was closed; those before it have had their turn. */
  private newest(bench: Bench, session: Session) {
    for (const prediction of [...session.validPredictions()].reverse()) {
      const outcome = outcomeOf(prediction, bench);
      if (!outcome) continue;
      if (this.closed.has(prediction)) return undefined;
      if (!this.told.has(prediction)) announce(this, `${outcome.agrees ? 'As you said' : 'Not as you said'}: ${outcome.happened}`);
      this.told.add(prediction);
      return { prediction, outcome };
    }
    return undefined;
  }

  private close(prediction: Prediction) {
    this.closed.add(prediction);
    this.requestUpdate();
  }

  private follow(bench: Bench, session: Session) {
    this.guide.follow(bench, session.store.taken, (guidance) => this.take(guidance));
    const [line = ''] = warningsOf(bench, this.guidance);
    if (line !== this.warned && line !== '') announce(this, line);
    this.warned = line;
    this.haltToChange(bench, session);
  }

  /** The window of the receiver passes in a few seconds of play: the clock stops once in its middle, unless the log changes it by itself. */
  private haltToChange({ scenario, plan, moment }: Bench, { store }: Session) {
    const { window } = this.guidance;
    const { eluent_mL, change_mL } = progressOf(scenario, plan.events);
    if (!window || !store.playing || eluent_mL === undefined || change_mL !== undefined || this.haltedAt === eluent_mL) return;
    if (moment.delivered_mL < bestStart(window) || moment.delivered_mL > window.to_mL) return;
    this.haltedAt = eluent_mL;
    store.pause();
  }

  private take(guidance: Guidance) {
    this.guidance = guidance;
    if (guidance === NO_GUIDANCE) this.guide.forget();
    emit(this, 'bf-guidance', guidance);
  }

  /** The volume being put down, those put down before, and what came of them. */
  private tellMarks(bench: Bench, session: Session) {
    const past = session.coach === 'off' ? [] : session.validPredictions().filter(({ volume_mL }) => volume_mL !== undefined);
    const marks = past.map(({ volume_mL = 0 }) => ({ mL: volume_mL, label: 'you said' }));
    if (this.question?.choices.length === 0)
      marks.push({ mL: Math.min(this.volume_mL, Math.max(this.volume_mL, deliveredAtEnd(bench.plan))), label: 'you say' });
    const key = JSON.stringify(marks);
    if (key === this.marked) return;
    this.marked = key;
    emit(this, 'bf-marks', marks);
  }

  private takeVolume({ detail }: CustomEvent<number>) {
    this.volume_mL = detail;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-coach': Coach;
  }
}
