import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Attribution, AttributionLine, Blame } from '../../sim/attribution/index.ts';
import { FAULTS } from '../../sim/faults/index.ts';
import { IONS } from '../../sim/terms/ions.ts';
import { Losses } from '../store/threads/losses.ts';
import { isHidden } from '../store/keep/mystery.ts';
import type { Session } from '../store/session.ts';
import { LiveElement } from '../store/live-element.ts';
import { duration, fixed, millilitres, millimoles, percent, withUnit } from '../ui/text/format.ts';
import { emit } from '../ui/emit.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { lossBar, patternPiece } from './loss-bar.ts';
import { partStyles } from './styles.ts';

/** Names of causes that only actions can bring about. Of a wash they say what was otherwise than planned, for that may have helped. */
const BY_HAND: Readonly<Record<string, string>> = {
  'receiver-unchanged': 'receiver never changed',
  'short-wash': 'washed less than planned',
  'long-wash': 'washed more than planned',
  'poured-on-bed': 'poured onto the bed',
  'wide-clamp': 'clamp too wide',
  'narrow-clamp': 'clamp too narrow',
  'standing-still': 'waiting without flow',
  stirred: 'stirred',
};

/**
 * Where the target went, and why: the run again with each cause repaired by itself, and with all repaired. Each line leads to
 * its moment of the run.
 *
 * @fires bf-leave - back to the column, which shows the moment of a line
 */
@customElement('bf-why-lost')
export class WhyLost extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    partStyles,
    css`
      .scroll { overflow-x: auto; position: relative; }
      table { border-collapse: collapse; margin-bottom: var(--gap-small); }
      caption { text-align: left; font-weight: 600; padding-bottom: var(--gap-small); }
      th, td { padding: 0.25em 0.75em 0.25em 0; text-align: left; font-weight: 400; vertical-align: baseline; }
      thead th { color: var(--soft); font-size: var(--text-small); border-bottom: 1px solid var(--edge); vertical-align: bottom; }
      tbody tr + tr > * { border-top: 1px solid var(--rule); }
      tbody tr.sum > * { border-top: 2px solid var(--edge); font-weight: 600; }
      .number { text-align: right; white-space: nowrap; }
      .small { display: block; color: var(--soft); font-size: var(--text-small); }
      .key { width: 1.5em; height: 1em; vertical-align: -0.1em; margin-right: 0.5em; }
      svg.plot { max-width: 100%; }
      @media print { .do { display: none; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  private readonly losses = new Losses();

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.losses.cancel();
  }

  override render() {
    const { session, losses } = this;
    const store = session?.store;
    if (!session || !store?.scenario) return nothing;
    if (isHidden(session.mystery)) return html`<h2>Why</h2><p>Name the fault first, under <a href="#faults">Faults</a>.</p>`;
    const stale = losses.attribution !== undefined && losses.log !== store.log;
    return html`<h2>Where it went, and why</h2>
      <div class="row do">
        ${
          losses.runs === undefined
            ? html`<button type="button" ?disabled=${store.log.length === 0} @click=${this.begin}>${losses.attribution && !stale ? 'Work it out again' : 'Work out the causes'}</button>`
            : html`<button type="button" @click=${() => losses.cancel()}>Cancel</button><progress aria-label="Working out the causes"></progress><span role="status">${losses.runs} runs done. ${losses.restarted}</span>`
        }
        ${store.log.length === 0 ? html`<span class="soft">Nothing has been done yet.</span>` : nothing}
      </div>
      ${losses.failure ? html`<p class="problem" role="alert">${losses.failure}</p>` : nothing}
      ${losses.attribution && !stale ? this.told(losses.attribution, session.workUp.showsAmounts) : losses.runs === undefined ? html`<p class="soft">The run is computed again once for each cause, with that cause repaired, and once with all causes repaired.</p>` : nothing}`;
  }

  /** `amounts`: what was lost also in mmol, not as a share of the load alone. */
  private told(found: Attribution, amounts: boolean) {
    const { target, actual, repaired, lines, notSeparable, receivers } = found;
    const name = IONS[target].name;
    const lost = actual.loaded_mmol > 0 ? actual.lost_mmol / actual.loaded_mmol : 0;
    // So many decimals that the column adds up where little was lost.
    const decimals = lost < 0.01 ? 2 : 1;
    const blame = (of: Blame) => this.blame(of, actual.loaded_mmol, amounts, decimals);
    return html`
      <p>${amounts ? `Of ${millimoles(actual.loaded_mmol)} ${name}, ${withUnit(fixed(actual.lost_mmol, 4), 'mmol')} (${percent(lost, decimals)})` : `Of the ${name}, ${percent(lost, decimals)}`} did not reach ${receivers.map((label) => `“${label}”`).join(' and ')}.
        ${lines.length === 0 ? 'No cause was found: no fault was imposed, and what was done was as planned or met the limits of the task.' : ''}</p>
      ${lossBar(found, (kind) => this.nameOf(kind))}
      <div class="scroll" role="region" aria-label="Causes" tabindex="0"><table>
        <caption>What each cause cost; a negative number means that it helped</caption>
        <thead><tr><th scope="col">cause</th>${amounts ? html`<th scope="col" class="number">${name} lost, mmol</th><th scope="col" class="number">of the load</th>` : html`<th scope="col" class="number">${name} lost, of the load</th>`}<th scope="col" class="number">other metals carried, mmol</th><th scope="col" class="number">acid carried, mmol</th><th scope="col" class="number">time, min</th><th scope="col">moment</th></tr></thead>
        <tbody>
          ${lines.map((line, i) => html`<tr><th scope="row">${key(i)}${this.nameOf(line.kind)}<span class="small">${line.origin === 'hand' ? 'by hand: ' : 'imposed: '}${line.origin === 'hand' ? line.what : FAULTS[line.kind as keyof typeof FAULTS].what}</span></th>${blame(line)}<td>${this.moment(line)}</td></tr>`)}
          <tr><th scope="row">${key(lines.length)}not separable<span class="small">causes that act together</span></th>${blame(notSeparable)}<td></td></tr>
          <tr><th scope="row">${key(lines.length + 1)}by none of these<span class="small">a sound bed, without the causes above</span></th>${blame(repaired)}<td></td></tr>
          <tr class="sum"><th scope="row">this run</th>${blame(actual)}<td></td></tr>
        </tbody>
      </table></div>
      ${amounts ? nothing : html`<p class="do"><button type="button" @click=${this.session?.workUp.askForAmounts}>Show the amounts</button></p>`}
      <p class="soft">${found.runs} whole runs were computed. In every column of the table, the causes, “not separable” and “by none of these” add up to this run. Wash, water and receiver are judged at the bench: where they met the limits of the task, they are no cause.</p>`;
  }

  private blame({ lost_mmol, carried_mmol, acid_mmol, time_min }: Blame, loaded_mmol: number, amounts: boolean, decimals: number) {
    return html`${amounts ? html`<td class="number">${fixed(lost_mmol, 4)}</td>` : nothing}<td class="number">${loaded_mmol > 0 ? percent(lost_mmol / loaded_mmol, decimals) : '–'}</td><td class="number">${fixed(carried_mmol, 4)}</td><td class="number">${fixed(acid_mmol, 2)}</td><td class="number">${fixed(time_min, 1)}</td>`;
  }

  private moment({ moment_min, delivered_mL, entry, kind }: AttributionLine) {
    if (entry < 0 && moment_min <= 0) return 'from the start';
    return html`<button type="button" @click=${() => this.go(moment_min)}>${duration(moment_min)}, ${millilitres(delivered_mL)}<span class="unseen">, show ${this.nameOf(kind)}</span></button>`;
  }

  private nameOf(kind: string): string {
    return BY_HAND[kind] ?? (Object.hasOwn(FAULTS, kind) ? FAULTS[kind as keyof typeof FAULTS].label : kind);
  }

  private go(time_min: number) {
    const store = this.session?.store;
    store?.pause();
    void store?.seek(time_min);
    emit(this, 'bf-leave', undefined);
  }

  private begin() {
    const { session } = this;
    if (!session?.written) return;
    this.losses.begin(session.written, session.store.log);
  }
}

/** Pattern and number of a part of the bar, beside its name in the table. */
function key(place: number) {
  return html`${svg`<svg class="key" viewBox="0 0 24 16" aria-hidden="true">${patternPiece(place, 0, 24, 16)}</svg>`}${place + 1}. `;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-why-lost': WhyLost;
  }
}
