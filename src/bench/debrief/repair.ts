import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { CURE_KINDS, type CureKind, CURES, cureWords, fitsNow, withNeeds } from '../../../sim/bench/index.ts';
import { eluents } from '../../../sim/input/index.ts';
import { fits } from '../../../sim/teach/index.ts';
import { LIMITS } from '../../../sim/terms/limits.ts';
import type { Action, Log, Scenario } from '../../../sim/terms/types.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import { LiveElement } from '../../store/live-element.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { emit } from '../../ui/emit.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import { sayRefusal } from '../words.ts';
import { airLeft, pressWords, pushed_mL } from './repair-words.ts';
import { sectionStyles } from './section-styles.ts';
import '../../ui/number.ts';

/**
 * What can be done about a spoilt bed: what each cure does, costs and needs, and which of them is for the bed as it stands now.
 * Folded away, for a good run needs none of it.
 *
 * @fires bf-carry-out - {actions} a cure with what it needs, one step to undo
 */
@customElement('bf-repair')
export class RepairControl extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    sectionStyles,
    css`
      summary { min-height: var(--target); display: flex; align-items: center; cursor: pointer; font-weight: 600; }
      summary::before { content: '▸'; width: 1.25em; font-weight: 400; }
      details[open] summary::before { content: '▾'; }
      .row { align-items: end; margin: var(--gap-small) 0; }
      label { color: var(--soft); }
      select { max-width: 100%; }
      p { margin: 0; }
      ul { list-style: none; margin: 0; padding: 0; display: grid; gap: var(--gap-small) var(--gap-large); grid-template-columns: repeat(auto-fit, minmax(min(100%, 17rem), 1fr)); }
      li { border-top: 1px solid var(--rule); padding-top: var(--gap-small); align-content: start; }
      li.fits { border-top: 3px solid var(--accent); }
      h4 { margin: 0; font-size: inherit; }
      .mark { color: var(--accent); font-weight: 600; }
      .outcome { font-weight: 600; }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;
  /** What is wrong with the bed is to be found by the reader: only what shows is told. */
  @property({ type: Boolean }) hides = false;
  @property({ type: Boolean }) unfolded = false;
  @state() private liquid = '';
  /** What the reader has set; otherwise what the bed needs. */
  @state() private volume_mL: number | undefined;
  @state() private resin_mL = 0.5;
  /** The cure pressed last, the lab it was pressed in, and the refusal that stood then. */
  @state() private pressed: { readonly kind: CureKind; readonly scenario: Scenario; readonly refusal: ColumnStore['refusal'] } | undefined;

  override willUpdate() {
    const { scenario } = this.store ?? {};
    const known = Object.keys(scenario?.liquids ?? {});
    if (!known.includes(this.liquid)) this.liquid = (scenario && eluents(scenario).acid) ?? known[0] ?? '';
  }

  override render() {
    const { scenario, moment } = this.store ?? {};
    if (!scenario || !moment) return nothing;
    return html`<details ?open=${this.unfolded} @toggle=${this.folded}>
      <summary>Mend the bed</summary>
      <ul>${this.cures(scenario, moment)}</ul>
    </details>`;
  }

  private cures(scenario: Scenario, moment: Moment) {
    const ails = this.hides ? { ...moment.ails, hollow_mL: 0, gap: false } : moment.ails;
    const reasons = CURE_KINDS.map((kind) => fitsNow(kind, ails));
    // The gentlest that fits is the one to begin with.
    const first = reasons.findIndex((why) => why !== '');
    return CURE_KINDS.map((kind, i) => this.cure(kind, scenario, moment, reasons[i] ?? '', i === first));
  }

  private cure(kind: CureKind, scenario: Scenario, moment: Moment, why: string, first: boolean) {
    const actions = withNeeds(this.action(kind, scenario, moment), scenario, moment, this.acid(scenario));
    return html`<li class=${why === '' ? '' : 'fits'}>
      <h4>${CURES[kind].label}</h4>
      ${why === '' ? nothing : html`<p class="mark">Fits now: ${why}.</p>`}
      <p>${cureWords(kind)}</p>
      ${this.amount(kind, scenario, moment)}
      <div class="row"><button type="button" class=${first ? 'primary' : ''} @click=${() => this.take(kind, actions, scenario)}>${pressWords(actions, scenario)}</button></div>
      ${this.outcome(kind, scenario, moment)}
    </li>`;
  }

  private amount(kind: CureKind, scenario: Scenario, moment: Moment) {
    if (kind === 'stir') return nothing;
    if (kind === 'top-up')
      return html`<div class="row"><bf-number .of=${LIMITS['top-up.resin_mL']} .value=${this.resin_mL} @bf-change=${(event: NumberEvent) => {
        this.resin_mL = event.detail.value;
      }}></bf-number></div>`;
    return html`<div class="row">
      <label>from below <select @change=${this.choose}>${Object.entries(scenario.liquids).map(([id, { label }]) => html`<option value=${id} ?selected=${id === this.liquid}>${label}</option>`)}</select></label>
      <bf-number .of=${LIMITS['refill-from-below.volume_mL']} .value=${this.volume(scenario, moment)} @bf-change=${(event: NumberEvent) => {
        this.volume_mL = event.detail.value;
      }}></bf-number>
    </div>`;
  }

  /** What became of the press, beside it. */
  private outcome(kind: CureKind, scenario: Scenario, moment: Moment) {
    const { store, pressed } = this;
    if (pressed?.kind !== kind || pressed.scenario !== scenario || !store) return nothing;
    const { refusal } = store;
    if (refusal && refusal !== pressed.refusal)
      return html`<p class="refused" role="alert">${sayRefusal(refusal, fits(scenario.values, moment.headVolume))}</p>`;
    const last = moment.events.findLast(({ action, refused }) => action && !refused && action.do !== 'wait')?.action;
    if (last?.do !== kind) return nothing;
    return html`<div class="row"><p class="outcome" role="status">Done. ${airLeft(moment, this.hides)}</p><button type="button" ?disabled=${!store.canUndo} @click=${() => store.undo()}>Undo</button></div>`;
  }

  private action(kind: CureKind, scenario: Scenario, moment: Moment): Action {
    if (kind === 'stir') return { do: 'stir' };
    if (kind === 'top-up') return { do: 'top-up', resin_mL: this.resin_mL };
    return { do: 'refill-from-below', liquid: this.liquid, volume_mL: this.volume(scenario, moment) };
  }

  private volume({ values }: Scenario, { ails, headVolume }: Moment): number {
    return this.volume_mL ?? pushed_mL(ails, fits(values, headVolume));
  }

  private acid(scenario: Scenario): string {
    return eluents(scenario).acid ?? this.liquid;
  }

  private choose(event: Event & { target: HTMLSelectElement }) {
    this.liquid = event.target.value;
  }

  private folded(event: Event & { target: HTMLDetailsElement }) {
    this.unfolded = event.target.open;
  }

  private take(kind: CureKind, actions: Log, scenario: Scenario) {
    this.pressed = { kind, scenario, refusal: this.store?.refusal };
    this.volume_mL = undefined;
    emit<{ actions: Log }>(this, 'bf-carry-out', { actions });
  }
}

type NumberEvent = CustomEvent<{ value: number }>;

declare global {
  interface HTMLElementTagNameMap {
    'bf-repair': RepairControl;
  }
}
