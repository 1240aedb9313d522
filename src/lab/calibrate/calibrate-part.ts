import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Scenario } from '../../../sim/terms/types.ts';
import { localStorageOf } from '../../store/keep/storage.ts';
import { LiveElement } from '../../store/live-element.ts';
import { announce } from '../../ui/announce.ts';
import { controlStyles } from '../../ui/styles.ts';
import { significant } from '../../ui/text/format.ts';
import type { LabDraft } from '../draft.ts';
import { earlyWords } from '../fit/doubts.ts';
import type { FitAnswer } from '../fit/fit-worker.ts';
import type { FitProgress } from '../squares/problem.ts';
import { type MeasurementsResult, readMeasurements } from '../fit/measurements.ts';
import { partStyles } from '../sections/styles.ts';
import { Fitting } from './fitting.ts';
import { keepReadings, keptReadings } from './kept-readings.ts';
import { openWords } from './words.ts';
import './accept-part.ts';
import './readings-part.ts';
import './result-part.ts';

/**
 * Fits the lab to what was measured on a run of its procedure.
 *
 * @fires bf-use - asks to put the lab on the bench
 * @fires bf-save - asks to save the lab as a file
 */
@customElement('bf-lab-calibrate')
export class CalibratePart extends LiveElement {
  static override styles = [
    controlStyles,
    partStyles,
    css`
      :host { max-width: 72rem; }
      h2 { margin: 0; font-size: 1.25rem; }
      progress { width: min(20rem, 100%); accent-color: var(--accent); }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;
  @state() private text = keptReadings(localStorageOf(window));
  /** JSON of the lab that was last fitted. */
  @state() private of: unknown;
  private readonly fitting = new Fitting();
  private told: FitAnswer | undefined;

  override updated() {
    const { answer } = this.fitting;
    if (answer && answer !== this.told) announce(this, `The fit is done. ${openWords(answer.calibration)}`);
    this.told = answer;
  }

  override render() {
    const { draft, text, fitting } = this;
    if (!draft) return nothing;
    const { scenario } = draft;
    if (!scenario)
      return html`<h2>Calibrate</h2><p role="status">Something in the lab is not valid yet; it is listed in the editor. Calibrate once everything is valid.</p>`;
    const read = text.trim() === '' ? undefined : readMeasurements(text, scenario);
    const doubts = read?.ok ? earlyWords(scenario, read.measurements) : [];
    const early = doubts.length;
    return html`<h2>Calibrate ${scenario.title}</h2>
      <p>Run this lab’s procedure on a real column. Measure what you can with a ruler, a cylinder and a watch, or analyse fractions by any method, and enter the readings. The fit then adjusts the bead size, the porosity, the uptake and the other numbers that a run can determine. Nothing leaves this browser.</p>
      <bf-readings .scenario=${scenario} .text=${text} .read=${read} .doubts=${doubts} @bf-readings=${this.take}></bf-readings>
      <div class="row">${fitting.progress ? this.going(fitting.progress) : html`<button type="button" class="primary" ?disabled=${!read?.ok || early > 0} @click=${() => this.fit(scenario, read)}>Fit</button>`}
        ${early > 0 ? html`<span class="early">${early === 1 ? 'One reading of the band comes' : `${early} readings of the band come`} before the sample was poured, where the model has no band: correct the volume or take the row out.</span>` : nothing}</div>
      <p class="problem" role="alert">${fitting.failure === '' ? nothing : `The fit stopped: ${fitting.failure}. Your table is unchanged; press Fit to try again.`}</p>
      ${fitting.answer ? html`<bf-fit-result .answer=${fitting.answer} .of=${this.of}></bf-fit-result><bf-fit-accept .draft=${draft} .calibration=${fitting.answer.calibration} .of=${this.of}></bf-fit-accept>` : nothing}`;
  }

  private going({ runs, runsMost, chiSquare }: FitProgress) {
    const best = Number.isFinite(chiSquare) ? `, sum of squared deviations ${significant(chiSquare, 3)}` : '';
    return html`<progress max=${runsMost} .value=${runs} aria-label="Runs of the model"></progress>
      <span>run ${runs} of at most ${runsMost}${best}. ${this.fitting.restarted}</span>
      <button type="button" @click=${() => this.fitting.cancel()}>Cancel</button>`;
  }

  private take(event: CustomEvent<{ text: string }>) {
    this.text = event.detail.text;
    keepReadings(localStorageOf(window), this.text);
  }

  private fit(scenario: Scenario, read: MeasurementsResult | undefined) {
    if (!read?.ok) return;
    this.of = this.draft?.json;
    this.fitting.start(scenario, read.measurements);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-calibrate': CalibratePart;
  }
}
