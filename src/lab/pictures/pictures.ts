import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { deliveredAtEnd, switchWindow, targetsOf, withStop } from '../../../sim/history/index.ts';
import { workerThread } from '../../store/threads/model-thread.ts';
import { LiveElement } from '../../store/live-element.ts';
import { dayWords } from '../../ui/day/day-words.ts';
import { controlStyles } from '../../ui/styles.ts';
import type { LabDraft } from '../draft.ts';
import { LabRun } from './lab-run.ts';
import { receiverWords, refusedIn } from './words.ts';

/** The lab as it would run: the column at the planned moment, the run of its procedure, and both in words. */
@customElement('bf-lab-pictures')
export class LabPictures extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: grid; grid-template-rows: minmax(440px, 1fr) auto; gap: var(--gap-small); min-width: 0; height: 100%; }
      .two { display: grid; grid-template-columns: clamp(8rem, 30%, 14rem) minmax(0, 1fr); gap: var(--gap-small); min-height: 0; }
      .two > * { min-width: 0; height: 100%; }
      .two[aria-busy='true'] { opacity: 0.6; }
      .told[aria-busy='true'] { color: var(--soft); }
      .told { font-size: var(--text-small); }
      p { margin: 0 0 var(--gap-small); }
      .problem { color: var(--problem-ink); }
      @media (max-width: 40rem) { .two { grid-template-columns: 7.25rem minmax(0, 1fr); } }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;
  @state() private bedTop = 0;
  @state() private bedBottom = 0;
  private run = new LabRun(() => workerThread());

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.run.close();
  }

  override updated() {
    const { draft, run } = this;
    const wanted = draft?.scenario;
    if (wanted) run.show(wanted);
    // A procedure that faults have changed is not the one that is edited.
    const plain = run.scenario !== undefined && run.scenario.procedure === wanted?.procedure;
    const refused = plain && run.plan && !run.working ? refusedIn(run.plan) : [];
    if (draft && JSON.stringify(refused) !== JSON.stringify(draft.runIssues)) draft.runIssues = refused;
  }

  override render() {
    const { scenario, plan, moment, working, failure } = this.run;
    if (failure !== '') return html`<p class="problem" role="alert">The procedure could not be run: ${failure}</p>`;
    if (!scenario || !plan || !moment) return html`<p role="status">The column is being packed …</p>`;
    const targets = withStop(plan, targetsOf(scenario));
    return html`
      <div class="two" aria-busy=${working ? 'true' : 'false'}>
        <bf-glass .scenario=${scenario} .moment=${moment} .labels=${plan.labels} .bedTop=${this.bedTop} .bedBottom=${this.bedBottom}></bf-glass>
        <bf-figure .scenario=${scenario} .plan=${plan} .now_mL=${moment.delivered_mL} .now_min=${moment.time_min} .present_mL=${deliveredAtEnd(plan)}
          .window=${switchWindow(plan, targets)} .targets=${targets}
          @bf-layout=${this.align} @bf-look-back=${this.look}></bf-figure>
      </div>
      <div class="told" role="status" aria-busy=${working ? 'true' : 'false'}>
        ${this.draft?.scenario ? nothing : html`<p>Shown: the last valid lab.</p>`}
        <p>${receiverWords(scenario, plan)}</p>
        <p>${dayWords(scenario, plan)}</p>
      </div>`;
  }

  private align(event: CustomEvent<{ bedTop: number; bedBottom: number }>) {
    this.bedTop = event.detail.bedTop;
    this.bedBottom = event.detail.bedBottom;
  }

  private look(event: CustomEvent<{ delivered_mL: number | undefined }>) {
    void this.run.look(event.detail.delivered_mL);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-pictures': LabPictures;
  }
}
