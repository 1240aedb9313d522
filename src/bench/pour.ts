import { sectionOf } from '../../sim/terms/geometry.ts';
import { LIMITS } from '../../sim/terms/limits.ts';
import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Liquid } from '../../sim/terms/types.ts';
import type { ColumnStore } from '../store/column-store.ts';
import { LiveElement } from '../store/live-element.ts';
import type { CautionId } from '../ui/safety/cautions.ts';
import { emit } from '../ui/emit.ts';
import { KeysController } from '../ui/keys.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { sectionStyles } from './section-styles.ts';
import { refusalWords } from './words.ts';
import '../ui/safety/caution.ts';
import '../ui/number.ts';
import '../ui/segmented.ts';

const POUR_LEAST_ML = LIMITS['pour.volume_mL'].step;
const POUR_USUAL_ML = 5;
/** Most that the control offers from a reservoir, mL; a choice. */
const RESERVOIR_MAX_ML = 100;
/** Acid from which the acid caution is shown, mol/L; below it the usual goggles and gloves do. Common practice, no source. */
const STRONG_M = 1;

type How = 'wall' | 'bed' | 'reservoir';
const HOW: readonly { value: How; label: string }[] = [
  { value: 'wall', label: 'down the wall' },
  { value: 'bed', label: 'straight onto the bed' },
  { value: 'reservoir', label: 'from a reservoir that holds the level' },
];

/**
 * The pour control: which liquid, how much, and how.
 *
 * @fires bf-act - {action} to be taken
 */
@customElement('bf-pour')
export class PourControl extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    sectionStyles,
    css`
      .row label { flex: 1 1 8rem; }
      select { width: 100%; }
      .note { margin: 0; font-size: var(--text-small); color: var(--soft); }
      .cautions { display: grid; gap: var(--gap-small); font-size: var(--text-small); }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;
  @state() private liquid = '';
  @state() private volume_mL = POUR_USUAL_ML;
  @state() private how: How = 'wall';

  constructor() {
    super();
    new KeysController(this, { heading: 'Pour', entries: [{ key: 'p', does: 'pour the chosen liquid', run: () => this.pour() }] });
  }

  override willUpdate() {
    const known = Object.keys(this.store?.scenario?.liquids ?? {});
    if (!known.includes(this.liquid)) this.liquid = known[0] ?? '';
  }

  override render() {
    const { store } = this;
    const liquids = store?.scenario?.liquids;
    if (!store?.moment || !liquids) return nothing;
    const max = this.most(store);
    return html`<section aria-labelledby="heading">
      <h2 id="heading">Pour</h2>
      <bf-segmented label="liquid" label-unseen .choices=${Object.entries(liquids).map(([value, { label }]) => ({ value, label }))} .value=${this.liquid}
        @bf-change=${this.takeLiquid}></bf-segmented>
      <bf-number slider .of=${LIMITS['pour.volume_mL']} .max=${max} .value=${Math.min(this.volume_mL, max)}
        .error=${this.refusal} @bf-input=${this.takeVolume} @bf-change=${this.takeVolume}></bf-number>
      <div class="row">
        <label><span class="unseen">how</span><select @change=${this.takeHow}>${HOW.map(({ value, label }) => html`<option value=${value} ?selected=${value === this.how}>${label}</option>`)}</select></label>
        <button type="button" class="primary" @click=${this.pour}>Pour</button>
      </div>
      ${this.how === 'reservoir' ? html`<p class="note">A reservoir keeps the liquid 1 cm above the bed until the volume is used.</p>` : nothing}
      <div class="cautions">${cautionsFor(liquids[this.liquid]).map((topic) => html`<bf-caution .topic=${topic} .read=${READ.has(topic)} @bf-caution-read=${this.remember}></bf-caution>`)}</div>
    </section>`;
  }

  /** Room between the liquid and the rim; a reservoir is not bound by it. */
  private most({ scenario, moment }: ColumnStore): number {
    const values = scenario?.values;
    if (!values || this.how === 'reservoir') return RESERVOIR_MAX_ML;
    const room = sectionOf(values) * (values['column.tube_cm'] - values['bed.length_cm']) - (moment?.headVolume ?? 0);
    return Math.max(POUR_LEAST_ML, Math.floor(room * 10) / 10);
  }

  private get refusal(): string {
    const event = this.store?.refusal;
    return event?.action?.do === 'pour' && event.refused ? refusalWords(event.refused) : '';
  }

  private pour() {
    const { liquid, how, store } = this;
    if (!store?.moment) return;
    const volume_mL = Math.min(this.volume_mL, this.most(store));
    emit(this, 'bf-act', { action: { do: 'pour', liquid, volume_mL, ...(how === 'reservoir' ? { hold_level: true } : { how }) } });
  }

  private takeLiquid(event: CustomEvent<{ value: string }>) {
    this.liquid = event.detail.value;
  }

  private takeVolume(event: CustomEvent<{ value: number }>) {
    this.volume_mL = event.detail.value;
  }

  private takeHow(event: Event & { target: HTMLSelectElement }) {
    this.how = HOW.find(({ value }) => value === event.target.value)?.value ?? 'wall';
  }

  private remember(event: CustomEvent<{ topic: CautionId }>) {
    READ.add(event.detail.topic);
  }
}

/** Cautions that were read since the page was opened; each visit shows them again. */
const READ = new Set<CautionId>();

function cautionsFor(liquid: Liquid | undefined): CautionId[] {
  if (!liquid) return [];
  return [...(liquid.HCl_M >= STRONG_M ? (['acid'] as const) : []), ...(Object.keys(liquid.ions).length > 0 ? (['metals'] as const) : [])];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-pour': PourControl;
  }
}
