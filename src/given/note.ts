import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Given } from '../store/given/given.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { emit } from '../ui/emit.ts';
import { controlStyles } from '../ui/styles.ts';
import { ruleLines } from '../ui/text/task/task-words.ts';

/**
 * On the bench: which try of what was handed out this is, its rules, and what can be done with it. Of a run opened from a class, whose it is. Silent for a run of one's own.
 *
 * @fires bf-hand-in - answering and handing in is wanted
 */
@customElement('bf-given-note')
export class GivenNote extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; }
      :host([empty]) { display: none; }
      section { display: grid; gap: var(--gap-small); padding: 0 var(--gap-small); border: 1px solid var(--edge); border-left: 4px solid var(--accent); border-radius: var(--round); font-size: var(--text-small); }
      p, ul { margin: 0; }
      ul { padding-left: 1.25em; }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); margin-bottom: var(--gap-small); }
      details > button, details > p { margin: var(--gap-small) 0; }
      summary { cursor: pointer; font-weight: 600; min-height: 1.75rem; display: flex; align-items: center; }
      summary::before { content: '▸'; width: 1.25em; }
      details[open] summary::before { content: '▾'; }
      @media (pointer: coarse) { summary { min-height: 2.75rem; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;

  override render() {
    const { session } = this;
    const { given, written, exampleWords = '' } = session ?? {};
    this.toggleAttribute('empty', given === undefined && exampleWords === '');
    if (!given && exampleWords !== '')
      return html`<section aria-label="From the class"><p><strong>${exampleWords}</strong>: a run of the class, opened as an example.</p></section>`;
    if (!session || !given || !written) return nothing;
    const { handOut, attempt, ended } = given;
    const name = `Handed out: try ${attempt} of ${handOut.tries}${ended ? ', ended' : ''}`;
    return html`<section aria-label="Handed out">
      <details><summary>${name}</summary>
        <ul>${ruleLines(handOut, written).map((line) => html`<li>${line}</li>`)}<li>${questionsLine(given)}</li></ul>
        ${ended ? nothing : this.endOf(session)}
      </details>
      ${ended ? this.whenEnded(session, given) : nothing}
    </section>`;
  }

  private endOf(session: Session) {
    return html`<button type="button" ?disabled=${session.store.log.length === 0} @click=${() => session.task.end()}>End this try</button>`;
  }

  private whenEnded(session: Session, given: Given) {
    const left = session.task.left(given);
    return html`<p>What was done up to the end is handed in, whatever is tried now.</p><div class="row"><button type="button" class="primary" @click=${() => emit(this, 'bf-hand-in', undefined)}>Answer and hand in</button>
      ${left > 0 ? html`<button type="button" @click=${() => session.task.next()}>Next try, ${left} left</button>` : nothing}</div>`;
  }
}

function questionsLine({ handOut }: Given): string {
  const count = handOut.asked.length + handOut.own.length;
  return count === 0 ? 'Nothing is asked at the end.' : `At the end ${count === 1 ? 'one question is' : `${count} questions are`} asked.`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-given-note': GivenNote;
  }
}
