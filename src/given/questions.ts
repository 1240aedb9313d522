import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { type Answer, tidied, WORDS_MAX, wordsIssue } from '../../sim/handed/index.ts';
import { inWords } from '../../sim/input/index.ts';
import { type Option, type Question, questionsOf } from '../../sim/teach/index.ts';
import { withAnswer } from '../store/given/given.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { controlStyles } from '../ui/styles.ts';

/** The questions of what was handed out. Answers are kept with the run as they are given; nothing says yet which are right. */
@customElement('bf-given-questions')
export class GivenQuestions extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: grid; gap: var(--gap-large); }
      .question { display: grid; gap: var(--gap-small); }
      .prompt { margin: 0; font-weight: 600; }
      fieldset { border: 0; padding: 0; margin: 0; min-width: 0; }
      legend { padding: 0; color: var(--soft); font-size: var(--text-small); }
      label.option { display: flex; gap: 0.6em; align-items: center; min-height: var(--target); }
      input[type='radio'] { width: 1.1em; height: 1.1em; flex: none; margin: 0; }
      textarea { font: inherit; color: inherit; background: var(--sheet); border: 1px solid var(--edge); border-radius: var(--round); width: 100%; min-height: 4rem; padding: 0.5em; }
      .error { margin: 0; color: var(--problem-ink); font-size: var(--text-small); overflow-wrap: anywhere; }
      .error:empty { display: none; }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private faults: Readonly<Record<string, string>> = {};

  override render() {
    const { given, written } = this.session ?? {};
    if (!given || !written) return nothing;
    const known = questionsOf(written);
    return html`
      ${given.handOut.asked.map((id) => {
        const question = known.find((one) => one.id === id);
        return question ? this.choosing(question) : nothing;
      })}
      ${given.handOut.own.map((question, i) => this.writing(question, i))}`;
  }

  private answerTo(question: string): Answer | undefined {
    return this.session?.given?.answers.find((answer) => answer.question === question);
  }

  private choosing({ id, prompt, choices, reasons }: Question) {
    return html`<div class="question"><p class="prompt" id="prompt-${id}">${prompt}</p>
      ${this.options(id, 'choice', 'What happens', choices)}${this.options(id, 'reason', 'Because', reasons)}</div>`;
  }

  private options(question: string, kind: 'choice' | 'reason', legend: string, options: readonly Option[]) {
    const chosen = this.answerTo(question)?.[kind];
    return html`<fieldset aria-describedby="prompt-${question}"><legend>${legend}</legend>${options.map(
      ({ id, text }) =>
        html`<label class="option"><input type="radio" name="${question}-${kind}" .checked=${chosen === id} @change=${() => this.take({ ...(this.answerTo(question) ?? { question }), [kind]: id })} /><span>${text}</span></label>`,
    )}</fieldset>`;
  }

  private writing(question: string, i: number) {
    return html`<div class="question"><label class="prompt" for="words-${i}">${question}</label>
      <textarea id="words-${i}" maxlength=${WORDS_MAX} aria-describedby="error-${i}" .value=${this.answerTo(question)?.words ?? ''} @change=${(event: Event & { target: HTMLTextAreaElement }) => this.write(question, event.target.value)}></textarea>
      <p class="error" id="error-${i}" role="alert">${this.faults[question] ?? ''}</p></div>`;
  }

  private write(question: string, typed: string) {
    const words = tidied(typed);
    const issue = words === '' ? undefined : wordsIssue(words);
    this.faults = { ...this.faults, [question]: issue ? `This was not kept. ${inWords([issue])}` : '' };
    if (!issue) this.take({ question, ...(words === '' ? {} : { words }) });
  }

  private take(answer: Answer) {
    const { session } = this;
    if (session?.given) session.given = withAnswer(session.given, answer);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-given-questions': GivenQuestions;
  }
}
