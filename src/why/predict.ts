import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { type Option, type Question, questionsOf } from '../../sim/teach/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { announce } from '../ui/announce.ts';
import { controlStyles } from '../ui/styles.ts';
import { partStyles } from './styles.ts';

interface Answer {
  readonly choice?: string;
  readonly reason?: string;
  readonly marked?: boolean;
}

/** Questions made from the scenario, one at a time: choose, give a reason, then see what the model says and why. */
@customElement('bf-why-predict')
export class Predict extends LitElement {
  static override styles = [
    controlStyles,
    partStyles,
    css`
      fieldset { border: 0; padding: 0; margin: 0 0 var(--gap); min-width: 0; }
      legend { padding: 0; color: var(--soft); }
      label { display: flex; gap: 0.6em; align-items: baseline; padding: 0.3em 0.5em; border-radius: var(--round); min-height: var(--target); border: 2px solid transparent; }
      label:hover { background: var(--wash); }
      label.right { border-color: var(--good-ink); background: var(--good-paper); }
      label.wrong { border-color: var(--problem-ink); border-style: dashed; }
      input[type='radio'] { width: 1.1em; height: 1.1em; flex: none; }
      .sets { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 24rem), 1fr)); gap: 0 var(--gap-large); }
      .verdict { font-weight: 600; }
      .explanation { border-left: 4px solid var(--accent); padding-left: var(--gap); }
      .asked { font-size: 1.125rem; font-weight: 600; }
    `,
  ];

  @property({ attribute: false }) scenario: Scenario | undefined;
  @state() private at = 0;
  @state() private answers: Readonly<Record<string, Answer>> = {};
  private questions: readonly Question[] = [];
  private of: Scenario | undefined;

  override willUpdate() {
    if (this.scenario === this.of) return;
    this.of = this.scenario;
    this.questions = this.scenario ? questionsOf(this.scenario) : [];
    this.answers = {};
    this.at = 0;
  }

  override render() {
    const question = this.questions[this.at];
    if (!question) return nothing;
    const answer = this.answers[question.id] ?? {};
    const last = this.at + 1 >= this.questions.length;
    return html`
      <p>Question ${this.at + 1} of ${this.questions.length}. ${this.scoreLine()}</p>
      <p class="asked">${question.prompt}</p>
      <div class="sets">
        ${this.options('choice', 'What happens', question, answer)}
        ${this.options('reason', 'Because', question, answer)}
      </div>
      <div aria-live="polite">${answer.marked ? verdict(question, answer) : nothing}</div>
      <div class="row">
        <button type="button" @click=${() => this.turn(-1)} ?disabled=${this.at === 0}>Previous question</button>
        ${answer.marked ? nothing : html`<button type="button" class=${answer.choice && answer.reason ? 'primary' : ''} @click=${() => this.mark(question)} ?disabled=${!answer.choice || !answer.reason}>See what the model says</button>`}
        <button type="button" class=${answer.marked && !last ? 'primary' : ''} @click=${() => this.turn(1)} ?disabled=${last}>Next question</button>
      </div>`;
  }

  private options(kind: 'choice' | 'reason', legend: string, question: Question, answer: Answer) {
    const options: readonly Option[] = kind === 'choice' ? question.choices : question.reasons;
    const right = question[kind];
    return html`<fieldset><legend>${legend}</legend>${options.map(({ id, text }) => {
      const chosen = answer[kind] === id;
      const mark = !answer.marked ? '' : id === right ? 'right' : chosen ? 'wrong' : '';
      return html`<label class=${mark}><input type="radio" name="${question.id}-${kind}" .checked=${chosen} ?disabled=${answer.marked ?? false} @change=${() => this.take(question, { [kind]: id })} />
        <span>${text}${mark === 'right' ? ' \u2713' : mark === 'wrong' ? ' \u2717' : ''}</span></label>`;
    })}</fieldset>`;
  }

  private scoreLine(): string {
    const marked = this.questions.filter(({ id }) => this.answers[id]?.marked);
    if (marked.length === 0) return 'Choose and give a reason before you look.';
    const right = marked.filter((question) => this.answers[question.id]?.choice === question.choice && this.answers[question.id]?.reason === question.reason);
    return `${right.length} of ${marked.length} right with the right reason.`;
  }

  private take(question: Question, part: Answer) {
    this.answers = { ...this.answers, [question.id]: { ...this.answers[question.id], ...part } };
  }

  private mark(question: Question) {
    this.take(question, { marked: true });
    announce(this, verdictText(question, this.answers[question.id] ?? {}));
  }

  private turn(by: number) {
    this.at = Math.min(this.questions.length - 1, Math.max(0, this.at + by));
  }
}

function verdict(question: Question, answer: Answer) {
  return html`<p class="verdict">${verdictText(question, answer)}</p><p class="explanation">${question.explanation}</p>`;
}

function verdictText(question: Question, { choice, reason }: Answer): string {
  const [right, why] = [choice === question.choice, reason === question.reason];
  if (right && why) return 'Both agree with the model.';
  if (right) return 'The outcome agrees with the model; the reason does not.';
  return why ? 'The reason is right, but the outcome is not.' : 'Neither agrees with the model.';
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-why-predict': Predict;
  }
}
