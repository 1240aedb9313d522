import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { CALCULATION_STEPS, type Readings, type StepCheck, type StepId } from '../../sim/report/index.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { fixed, significant } from '../ui/text/format.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';

const VERDICTS: Readonly<Record<StepCheck['verdict'], string>> = {
  right: 'right',
  follows: 'follows from the step before',
  wrong: 'not right',
  'not understood': 'not understood',
  missing: 'open',
};
const SIGNS: Readonly<Record<StepCheck['verdict'], string>> = { right: '✓', follows: '↳', wrong: '✗', 'not understood': '?', missing: '' };

/** The reader's own way from the burette to the molarity, a step a line, checked as it is typed. */
@customElement('bf-calculation')
export class Calculation extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; min-width: 0; }
      h2 { font-size: var(--text-large); margin: 0 0 var(--gap-small); }
      p { margin: 0 0 var(--gap-small); }
      .soft { color: var(--soft); font-size: var(--text-small); }
      ol { margin: 0; padding: 0; list-style: none; display: grid; gap: var(--gap-small); }
      li { display: grid; grid-template-columns: minmax(9rem, 14rem) 9rem minmax(0, 1fr); gap: 0 var(--gap); align-items: center; }
      input { width: 100%; text-align: right; }
      .right { color: var(--good-ink); }
      .wrong, .not { color: var(--problem-ink); font-weight: 600; }
      .first { border-left: 4px solid var(--problem-ink); padding-left: var(--gap); margin-top: var(--gap); }
      @media (max-width: 44rem) { li { grid-template-columns: minmax(0, 1fr) 9rem; } li > :last-child { grid-column: 1 / -1; } }
      @media print { input { border: 0; border-bottom: 1px solid #000; min-height: 0; padding: 0; } .soft.help { display: none; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;

  override render() {
    const { session } = this;
    const readings = session?.workUp.readings;
    const check = session?.workUp.own;
    if (!session || !readings || !check)
      return html`<h2>Your calculation</h2><p>There is no burette reading yet: titrate on the <a href="#workup">work-up</a> bench.</p>`;
    const { firstWrong, complete } = check;
    return html`<h2>Your calculation</h2>
      <p>${givenWords(readings)}</p>
      <p class="soft help">A unit may be typed or left out; a decimal comma is understood.</p>
      <ol>${CALCULATION_STEPS.map(({ id, label, unit }) =>
        this.line(
          id,
          label,
          unit,
          check.steps.find((step) => step.id === id),
        ),
      )}</ol>
      <div aria-live="polite">${firstWrong ? html`<p class="first"><strong>First to look at: ${firstWrong.label}.</strong> ${firstWrong.text}</p>` : complete ? html`<p class="right"><span aria-hidden="true">✓</span> Every step holds.</p>` : nothing}</div>`;
  }

  private line(id: StepId, label: string, unit: string, step: StepCheck | undefined) {
    const verdict = step?.verdict ?? 'missing';
    return html`<li>
      <label for=${id}>${label}, ${unit}</label>
      <input id=${id} type="text" inputmode="decimal" autocomplete="off" .value=${this.session?.workUp.saved.answers[id] ?? ''} aria-describedby="said-${id}"
        aria-invalid=${verdict === 'wrong' || verdict === 'not understood' ? 'true' : 'false'} @change=${(event: Event & { target: HTMLInputElement }) => this.session?.workUp.answer(id, event.target.value)} />
      <span id="said-${id}" class=${verdict.split(' ')[0] ?? ''}>${verdict === 'missing' ? '' : html`<span aria-hidden="true">${SIGNS[verdict]} </span>${VERDICTS[verdict]}${step && (verdict === 'right' || verdict === 'follows') && step.text !== '' ? html`<span class="soft">: ${step.text}</span>` : nothing}`}</span>
    </li>`;
  }
}

function givenWords({ initial_mL, final_mL, EDTA_M, flask_mL, portion_mL, sample_mL }: Readings): string {
  return `Last titration: burette ${fixed(initial_mL, 2)} to ${fixed(final_mL, 2)} mL of ${significant(EDTA_M, 3)} mol/L EDTA; ${significant(portion_mL, 3)} mL out of ${significant(flask_mL, 3)} mL; ${significant(sample_mL, 3)} mL of the unknown went on the column.`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-calculation': Calculation;
  }
}
