import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { LiveElement } from '../../store/live-element.ts';
import { emit } from '../../ui/emit.ts';
import { controlStyles } from '../../ui/styles.ts';
import type { LabDraft } from '../draft.ts';
import type { Calibration } from '../fit/calibrate.ts';
import { fittedJson } from '../fit/fitted-scenario.ts';
import { partStyles } from '../sections/styles.ts';

/**
 * Puts the fitted numbers into the lab, with the day of the run.
 *
 * @fires bf-use - asks to put the lab on the bench
 * @fires bf-save - asks to save the lab as a file
 */
@customElement('bf-fit-accept')
export class FitAccept extends LiveElement {
  static override styles = [
    controlStyles,
    partStyles,
    css`
      h3 { margin: var(--gap) 0 0; font-size: 1.1rem; }
      label { display: grid; gap: 0.125rem; font-size: var(--text-small); color: var(--soft); }
      input { width: auto; }
      .done { color: var(--good-ink); }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;
  @property({ attribute: false }) calibration: Calibration | undefined;
  /** JSON of the lab that was fitted. */
  @property({ attribute: false }) of: unknown;
  @state() private date = today();
  @state() private accepted: { readonly date: string; readonly json: unknown; readonly of: Calibration } | undefined;

  override render() {
    const { draft, calibration, accepted } = this;
    if (!draft || !calibration) return nothing;
    const taken = calibration.parameters.filter(({ open }) => !open).length;
    if (taken === 0) return nothing;
    if (accepted?.of === calibration && accepted.json === draft.json) return this.done(taken, accepted.date);
    if (draft.json !== this.of) return html`<p role="status">The lab has changed since this fit. Fit again to accept it.</p>`;
    return html`<h3>Accept</h3>
      <p>${taken === 1 ? 'One number' : `${taken} numbers`} of this lab will get the status “fitted to your run”, with the day and the interval. Numbers that are left open take the value that goes with the others, without that status.</p>
      <div class="row"><label>day of the run<input type="date" .value=${this.date} @change=${this.setDate} /></label>
        <button type="button" class="primary" @click=${this.accept}>Accept</button></div>`;
  }

  private done(taken: number, date: string) {
    return html`<h3>Accepted</h3>
      <p class="done" role="status">${taken === 1 ? 'One number' : `${taken} numbers`} of this lab now ${taken === 1 ? 'has' : 'have'} the status “fitted to your run”, ${date}. Undo reverses this.</p>
      <div class="row"><button type="button" class="primary" @click=${() => emit(this, 'bf-use', undefined)}>Use on the bench</button>
        <button type="button" @click=${() => emit(this, 'bf-save', undefined)}>Save as a file</button>
        <a href="#lab">Back to the editor</a></div>`;
  }

  private setDate(event: Event & { target: HTMLInputElement }) {
    this.date = event.target.value || today();
  }

  private accept() {
    const { draft, calibration, date } = this;
    if (!draft || !calibration) return;
    draft.change(fittedJson(draft.json, calibration, date));
    this.accepted = { date, json: draft.json, of: calibration };
  }
}

/** The local date, such as 2031-05-04. */
function today(): string {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-fit-accept': FitAccept;
  }
}
