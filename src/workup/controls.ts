import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { type Bench, type Dose, type ReagentId, REAGENTS, type WorkUpAction, type WorkUpEvent } from '../../sim/workup/index.ts';
import { type Limit, LIMITS } from '../../sim/terms/limits.ts';
import type { CautionId } from '../ui/safety/cautions.ts';
import { emit } from '../ui/emit.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { refusalText } from '../ui/text/work-up-refusals.ts';
import '../ui/safety/caution.ts';
import '../ui/number.ts';
import '../ui/segmented.ts';

type DoseKind = 'drops' | 'mL' | 'g' | 'until';

/** Reagents in the order in which they are usually wanted. */
const ORDER: readonly ReagentId[] = ['NaOH', 'acetate', 'acetic', 'thiocyanate', 'acetone', 'EDTA', 'water', 'HCl'];
const SHORT: Readonly<Record<ReagentId, string>> = {
  NaOH: 'NaOH',
  acetate: 'Na acetate',
  acetic: 'acetic acid',
  thiocyanate: 'thiocyanate',
  acetone: 'acetone',
  EDTA: 'EDTA',
  water: 'water',
  HCl: 'HCl',
};
const HAZARD: Readonly<Partial<Record<ReagentId, CautionId>>> = { NaOH: 'alkali', HCl: 'acid', thiocyanate: 'thiocyanate', acetone: 'acetone' };
/** What one press adds at first; common practice, no source. */
const USUAL: Readonly<Record<DoseKind, number>> = { drops: 1, mL: 1, g: 1, until: 6 };
const DOSES: Readonly<Record<DoseKind, Limit>> = {
  drops: LIMITS['work-up.drops'],
  mL: LIMITS['work-up.mL'],
  g: LIMITS['work-up.g'],
  until: LIMITS['work-up.pH'],
};

/**
 * What can be done to the flask in hand: reagents by drop, volume, mass or until something is seen; pipette, swirl, wait.
 *
 * @fires bf-step - {action} to be taken
 */
@customElement('bf-dispense')
export class Dispense extends LitElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; min-width: 0; }
      section { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap-small); }
      h2 { font-size: 1em; margin: 0; }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: end; }
      .refused { margin: 0; color: var(--problem-ink); font-weight: 600; }
      .refused:empty { display: none; }
      bf-caution { font-size: var(--text-small); }
      .flask { border-top: 1px solid var(--rule); padding-top: var(--gap-small); }
    `,
  ];

  @property({ attribute: false }) bench: Bench | undefined;
  /** The usual next step; its reagent is selected. */
  @property({ attribute: false }) next: WorkUpAction | undefined;
  /** Why the last action was refused. */
  @property({ attribute: false }) refusal: WorkUpEvent | undefined;
  @state() private reagent: ReagentId = 'NaOH';
  @state() private kind: DoseKind = 'drops';
  @state() private amounts: Record<DoseKind, number> = { ...USUAL };
  @state() private flask_mL = 0;
  @state() private portion_mL = 0;

  override willUpdate(changed: Map<PropertyKey, unknown>) {
    const values = this.bench?.values;
    if (changed.has('bench') && values) {
      this.flask_mL ||= values['workup.flask_mL'];
      this.portion_mL ||= values['workup.portion_mL'];
    }
    if (changed.has('next') && this.next?.do === 'add' && this.next.reagent !== this.reagent) this.takeUp(this.next.reagent);
    if (!this.kinds().includes(this.kind)) this.kind = this.kinds()[0] ?? 'drops';
  }

  override render() {
    const { bench, reagent, kind } = this;
    if (!bench) return nothing;
    const hazard = HAZARD[reagent];
    return html`<section aria-labelledby="add">
      <h2 id="add">Add to the flask</h2>
      <bf-segmented label="reagent" label-unseen .value=${reagent} .choices=${ORDER.filter((id) => REAGENTS.includes(id)).map((value) => ({ value, label: SHORT[value] }))}
        @bf-change=${this.takeReagent}></bf-segmented>
      <bf-segmented label=${`amount of ${reagent === 'EDTA' ? `${bench.values['workup.EDTA_M']} mol/L EDTA` : bench.reagents[reagent].label}`} .value=${kind} .choices=${this.kinds().map((value) => ({ value, label: kindLabel(value, reagent) }))}
        @bf-change=${this.takeKind}></bf-segmented>
      <div class="row">${this.amount()}<button type="button" class="primary" @click=${this.add}>Add</button></div>
      ${reagent === 'EDTA' ? this.fromBurette() : nothing}
      <p class="refused" role="alert">${this.refusal?.refused ? refusalText(this.refusal.refused) : ''}</p>
      ${this.refusal ? cautionsOf(this.refusal).map((topic) => html`<bf-caution .topic=${topic}></bf-caution>`) : nothing}
      ${hazard && !this.refusal ? html`<bf-caution .topic=${hazard} .read=${READ.has(hazard)} @bf-caution-read=${this.remember}></bf-caution>` : nothing}
      <div class="row flask">
        <button type="button" @click=${() => this.step({ do: 'transfer', rinses: bench.values['workup.rinses'], rinse_mL: bench.values['workup.rinse_mL'] })}>Pour all into a flask and rinse the receiver</button>
        <button type="button" @click=${() => this.step({ do: 'transfer', rinses: 0, rinse_mL: bench.values['workup.rinse_mL'] })}>Pour all without rinsing</button>
      </div>
      <div class="row">
        <bf-number .of=${LIMITS['work-up.make_up_mL']} .value=${this.flask_mL} @bf-change=${(event: NumberEvent) => {
          this.flask_mL = event.detail.value;
        }}></bf-number>
        <button type="button" @click=${() => this.step({ do: 'make up', to_mL: this.flask_mL })}>Make up to the mark</button>
        <bf-number .of=${LIMITS['work-up.portion_mL']} .value=${this.portion_mL} @bf-change=${(event: NumberEvent) => {
          this.portion_mL = event.detail.value;
        }}></bf-number>
        <button type="button" @click=${() => this.step({ do: 'portion', mL: this.portion_mL })}>Take a portion</button>
      </div>
      <div class="row">
        <button type="button" @click=${() => this.step({ do: 'swirl', min: 1 })}>Swirl 1 min</button>
        <button type="button" @click=${() => this.step({ do: 'wait', min: 1 })}>Wait 1 min</button>
        <button type="button" @click=${() => this.step({ do: 'wait', min: 5, ice: true })}>5 min in ice</button>
      </div>
    </section>`;
  }

  /** From the tap, one press each: fast at first, drop by drop where the blue begins to go. */
  private fromBurette() {
    const run = (label: string, dose: Dose) => html`<button type="button" @click=${() => this.step({ do: 'add', reagent: 'EDTA', dose })}>${label}</button>`;
    return html`<div class="row">${run('1 drop', { drops: 1 })}${run('5 drops', { drops: 5 })}${run('1 mL', { mL: 1 })}${run('5 mL', { mL: 5 })}</div>`;
  }

  private amount() {
    const { kind, reagent } = this;
    if (kind === 'until' && reagent === 'EDTA') return nothing;
    return html`<bf-number .of=${DOSES[kind]} .value=${this.amounts[kind]} @bf-input=${this.takeAmount} @bf-change=${this.takeAmount}></bf-number>`;
  }

  private kinds(): DoseKind[] {
    if (this.reagent === 'thiocyanate') return ['g', 'mL', 'drops'];
    const moves = this.reagent === 'NaOH' || this.reagent === 'acetic' || this.reagent === 'HCl' || this.reagent === 'EDTA';
    return moves ? ['drops', 'mL', 'until'] : ['mL', 'drops'];
  }

  private dose(): Dose {
    const amount = this.amounts[this.kind];
    if (this.kind === 'drops') return { drops: amount };
    if (this.kind === 'mL') return { mL: amount };
    if (this.kind === 'g') return { g: amount };
    return { until: this.reagent === 'EDTA' ? 'pink' : { pH: amount } };
  }

  private add() {
    this.step({ do: 'add', reagent: this.reagent, dose: this.dose() });
  }

  private step(action: WorkUpAction) {
    emit(this, 'bf-step', { action });
  }

  private takeReagent(event: CustomEvent<{ value: string }>) {
    this.takeUp(ORDER.find((id) => id === event.detail.value) ?? 'NaOH');
  }

  private takeUp(reagent: ReagentId) {
    this.reagent = reagent;
    const { values } = this.bench ?? {};
    if (this.reagent === 'acetone' && values) this.amounts = { ...this.amounts, mL: values['workup.acetone_mL'] };
    if (this.reagent === 'NaOH' && values) this.amounts = { ...this.amounts, until: values['workup.neutral_pH'] };
    if (this.reagent === 'acetic' && values) this.amounts = { ...this.amounts, until: values['workup.indicator_pH'] };
    if (this.reagent === 'acetate' && values) this.amounts = { ...this.amounts, mL: values['workup.acetate_mL'] };
    this.kind = this.kinds()[0] ?? 'drops';
  }

  private takeKind(event: CustomEvent<{ value: string }>) {
    this.kind = this.kinds().find((kind) => kind === event.detail.value) ?? 'drops';
  }

  private takeAmount(event: NumberEvent) {
    this.amounts = { ...this.amounts, [this.kind]: event.detail.value };
  }

  private remember(event: CustomEvent<{ topic: CautionId }>) {
    READ.add(event.detail.topic);
  }
}

type NumberEvent = CustomEvent<{ value: number }>;

/** Cautions that were read since the page was opened; each visit shows them again. */
const READ = new Set<CautionId>();

function kindLabel(kind: DoseKind, reagent: ReagentId): string {
  if (kind === 'until') return reagent === 'EDTA' ? 'until the blue has gone' : 'until a pH';
  return { drops: 'drops', mL: 'mL', g: 'g of solid' }[kind];
}

/** Hazards of a step that was refused. */
function cautionsOf({ notes }: WorkUpEvent): CautionId[] {
  return [...new Set(notes.flatMap(({ hazard }) => (hazard ? [hazard] : [])))];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-dispense': Dispense;
  }
}
