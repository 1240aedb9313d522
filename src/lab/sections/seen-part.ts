import { html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { valueAt } from '../../../sim/lab/index.ts';
import { SEED_MAX } from '../../../sim/math/random.ts';
import { LiveElement } from '../../store/live-element.ts';
import { controlStyles } from '../../ui/styles.ts';
import type { LabDraft } from '../draft.ts';
import { partStyles } from './styles.ts';
import '../../ui/number.ts';
import { SEEING_WORDS, SEEINGS } from '../../../sim/terms/seeing.ts';
import '../../ui/segmented.ts';

const SEEN = SEEINGS.map((value) => ({ value, label: SEEING_WORDS[value] }));
const OWN_CHOICE = 'choose';
const COACH = [
  { value: OWN_CHOICE, label: 'as they choose' },
  { value: 'off', label: 'silent' },
  { value: 'ask', label: 'asks' },
  { value: 'guide', label: 'guides' },
];

/** What students can see before the run ends, how the coach begins, and which column they get first. */
@customElement('bf-lab-seen')
export class SeenPart extends LiveElement {
  static override styles = [controlStyles, partStyles];

  @property({ attribute: false }) draft: LabDraft | undefined;

  override render() {
    const { draft } = this;
    if (!draft) return nothing;
    const [seeing, coach, seed] = ['seeing', 'coach', 'seed'].map((path) => valueAt(draft.json, path));
    return html`<bf-segmented data-path="seeing" label="Before the end they see at most" .value=${typeof seeing === 'string' ? seeing : 'forecast'} .choices=${SEEN} @bf-change=${this.see}></bf-segmented>
      <p class="soft">By eye: glass, ruler, cylinder, drops and clock. The figure: also the past of the run. Everything: also the forecast, that is, what comes if nothing more is done. Once the run has ended, everything is open.</p>
      <p class="problem" role="alert">${draft.problemAt('seeing')}</p>
      <bf-segmented data-path="coach" label="The coach" .value=${typeof coach === 'string' ? coach : OWN_CHOICE} .choices=${COACH} @bf-change=${this.coach}></bf-segmented>
      <p class="problem" role="alert">${draft.problemAt('coach')}</p>
      <bf-number data-path="seed" label="number of the first column" integer .max=${SEED_MAX} .value=${typeof seed === 'number' ? seed : 1} .error=${draft.problemAt('seed')} @bf-change=${this.column}></bf-number>
      <p class="soft">Each number stands for another column, if columns are set to differ.</p>`;
  }

  private see(event: CustomEvent<{ value: string }>) {
    this.draft?.set('seeing', event.detail.value === 'forecast' ? undefined : event.detail.value);
  }

  private coach(event: CustomEvent<{ value: string }>) {
    this.draft?.set('coach', event.detail.value === OWN_CHOICE ? undefined : event.detail.value);
  }

  private column(event: CustomEvent<{ value: number }>) {
    this.draft?.set('seed', event.detail.value === 1 ? undefined : event.detail.value);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-seen': SeenPart;
  }
}
