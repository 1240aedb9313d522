import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { IONS, type IonId } from '../../../sim/terms/ions.ts';
import { resolutionOf } from '../../../sim/chemistry/index.ts';
import type { Progress, Sequence } from '../../../sim/sequence/index.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { isRecord } from '../../../sim/input/index.ts';
import type { Json } from '../../store/keep/saved.ts';
import type { Session } from '../../store/session.ts';
import { LiveElement } from '../../store/live-element.ts';
import { Errand } from '../../store/threads/errand.ts';
import { duration, fixed, millilitres, significant } from '../../ui/text/format.ts';
import { controlStyles } from '../../ui/styles.ts';
import { capital } from '../../../sim/terms/capital.ts';
import { percentOf } from '../sentences.ts';
import type { SequenceReply, SequenceRequest } from './sequence-worker.ts';
import { sourceOf } from '../source.ts';
import { partStyles } from '../styles.ts';
import '../../ui/safety/caution.ts';
import '../../ui/segmented.ts';

const PURITIES = [0.95, 0.99, 0.995] as const;

/** Find a sequence: acids and volumes that bring each metal into its own receiver, searched for in the model, to be played on the bench. */
@customElement('bf-why-sequence')
export class SequencePart extends LiveElement {
  static override styles = [
    controlStyles,
    partStyles,
    css`
      progress { width: min(100%, 24rem); height: 0.8em; accent-color: var(--accent); }
      bf-caution { margin-bottom: var(--gap-small); }
      .obstacle { border-left: 4px solid var(--caution-edge); padding-left: var(--gap); }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private purity: number = 0.99;
  @state() private progress: Progress | undefined;
  @state() private found: Sequence | undefined;
  @state() private failure = '';
  /** Why the search had to be begun once more. */
  @state() private restarted = '';
  private readonly errand = new Errand<SequenceRequest, SequenceReply>(sequenceWorker, {
    heard: (reply) => this.hear(reply),
    again: (why) => {
      this.progress = undefined;
      this.restarted = `The search stopped (${why}) and was started again.`;
    },
    failed: (why) => this.hear({ kind: 'failed', message: `stopped twice (${why}); start it again, or change the scenario first` }),
  });
  private searched: Scenario | undefined;

  override willUpdate() {
    const scenario = this.session?.store.scenario;
    if (scenario !== this.searched && this.searched !== undefined) this.forget();
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.cancel();
  }

  override render() {
    const scenario = this.session?.store.scenario;
    if (!scenario) return nothing;
    return html`
      <p>Acids from the shelf are tried in the model one after another, and the search goes back a step where none works. The receiver is changed one hold-up volume after the acid.</p>
      <div class="row">
        <bf-segmented label="purity and yield wanted, at least" .value=${String(this.purity)} .choices=${PURITIES.map((value) => ({ value: String(value), label: `${fixed(value * 100, value > 0.99 ? 1 : 0)} %` }))} @bf-change=${this.takePurity}></bf-segmented>
        ${this.errand.going ? html`<button type="button" @click=${this.cancel}>Cancel</button>` : html`<button type="button" class="primary" @click=${this.search}>Find a sequence</button>`}
      </div>
      <div aria-live="polite">
        ${this.restarted ? html`<p>${this.restarted}</p>` : nothing}
        ${this.errand.going ? this.searching(scenario) : nothing}
        ${this.failure ? html`<p role="alert">${this.failure}</p>` : nothing}
        ${this.found ? this.result(this.found, scenario) : nothing}
      </div>`;
  }

  private searching(scenario: Scenario) {
    const { trials = 0, placed = [], HCl_M = 0 } = this.progress ?? {};
    return html`<p>Trial ${trials}: ${String(HCl_M)} M HCl${placed.length > 0 ? ` after ${placed.map(symbols).join(', ')}` : ''}.</p>
      <progress max=${scenario.ions.length} value=${placed.length} aria-label="metals placed"></progress>`;
  }

  private result(found: Sequence, scenario: Scenario) {
    const { steps, parted, together, trials, delivered_mL, time_min } = found;
    return html`
      <p class="say">${parted ? `Every metal has a receiver of its own: ${steps.map(({ ions }) => symbols(ions)).join(', ')}.` : together.length > 0 ? 'Not every metal could be separated.' : 'The order works, but a receiver misses the goal.'}</p>
      ${together.map((pair) => html`<p class="obstacle">${obstacleLine(pair, scenario)}</p>`)}
      <div class="scroll" role="region" aria-label="Steps of the sequence" tabindex="0"><table>
        <caption>${steps.length} steps, found in ${trials} trials; conditioning and all: ${millilitres(delivered_mL)}, ${duration(time_min)} by gravity</caption>
        <thead><tr><th scope="col">receiver</th><th scope="col" class="number">HCl, mol/L</th><th scope="col" class="number">volume, mL</th><th scope="col" class="number">purity</th><th scope="col" class="number">collected</th></tr></thead>
        <tbody>${steps.map((step) => html`<tr><th scope="row">${symbols(step.ions)}</th><td class="number">${String(step.HCl_M)}</td><td class="number">${fixed(step.volume_mL, 1)}</td><td class="number">${percentOf(step.purity)}</td><td class="number">${percentOf(step.recovered)}</td></tr>`)}</tbody>
      </table></div>
      <div class="row"><button type="button" class="primary" @click=${() => this.play(found)}>Play it on the bench</button></div>
      <bf-caution topic="acid" read></bf-caution><bf-caution topic="metals" read></bf-caution>
      <p class="status">Purity is the share among the metals in the receiver, on an even bed without faults. Playing it replaces the liquids and the procedure of the scenario and starts the run again.</p>
      ${sourceOf('The uptake curves behind the sequence are recalled from the literature.')}`;
  }

  private takePurity(event: CustomEvent<{ value: string }>) {
    this.purity = Number(event.detail.value);
  }

  private search() {
    const scenario = this.session?.store.scenario;
    if (!scenario) return;
    this.forget();
    this.searched = scenario;
    this.errand.begin({ scenario, goal: { purity: this.purity, recovered: this.purity } });
    this.requestUpdate();
  }

  private hear(reply: SequenceReply) {
    if (reply.kind === 'progress') {
      this.progress = reply.progress;
      return;
    }
    if (reply.kind === 'failed') this.failure = `search: ${reply.message}`;
    else if (reply.sequence === undefined) this.failure = 'search: no liquid of this scenario holds a metal';
    else this.found = reply.sequence;
    this.cancel();
  }

  private cancel() {
    this.errand.end();
    this.progress = undefined;
    this.requestUpdate();
  }

  private forget() {
    this.cancel();
    this.found = undefined;
    this.failure = '';
    this.restarted = '';
    this.searched = undefined;
  }

  private async play({ liquids, log }: Sequence) {
    const { session } = this;
    if (!session || !isRecord(session.json)) return;
    // Plain data of the model, the same shape as the scenario file.
    const changed = { ...session.json, liquids: liquids as unknown as Json, procedure: log as unknown as Json } as Json;
    session.store.pause();
    if (!(await session.beginOther(changed))) {
      this.failure = `bench: ${session.issues.map(({ path, expected }) => `${path}: expected ${expected}`).join('; ')}`;
      return;
    }
    location.hash = '#bench';
    await session.store.playProcedure();
  }
}

function sequenceWorker(): Worker {
  return new Worker(new URL('./sequence-worker.ts', import.meta.url), { type: 'module' });
}

function symbols(ions: readonly IonId[]): string {
  return ions.map((ion) => IONS[ion].symbol).join(' + ');
}

/** Why a pair stays together: the best any acid does, and what it would take. */
function obstacleLine(
  { first, second, HCl_M, ratio, firstBedVolumes, secondBedVolumes, platesNeeded }: Sequence['together'][number],
  scenario: Scenario,
): string {
  const plates = scenario.values['bed.plates'];
  const needed = Number.isFinite(platesNeeded)
    ? ` Separating them cleanly in one acid would take about ${significant(platesNeeded, 2)} plates; at most ${plates} (the cells of this bed) give a resolution of ${fixed(resolutionOf(ratio, plates), 1)}, and 1.5 is clean.`
    : '';
  return `${capital(IONS[first].name)} and ${IONS[second].name} stay together. Even in ${fixed(HCl_M, 1)} M HCl, the best for them, they need ${significant(firstBedVolumes, 2)} and ${significant(secondBedVolumes, 2)} bed volumes: a ratio of ${significant(ratio, 2)}, where 1 is no separation.${needed}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-why-sequence': SequencePart;
  }
}
