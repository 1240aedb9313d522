import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { effective, valueAt, withValueAt } from '../../../sim/lab/index.ts';
import { DEFAULT_GRADE, GRADE_NAMES, GRADES } from '../../../sim/terms/grades.ts';
import { LiveElement } from '../../store/live-element.ts';
import { quantity } from '../../ui/text/format.ts';
import { controlStyles } from '../../ui/styles.ts';
import type { LabDraft } from '../draft.ts';
import { SECTIONS } from './contents.ts';
import { partStyles } from './styles.ts';
import './fields.ts';

const [{ more: NUMBERS }] = SECTIONS.filter(({ id }) => id === 'resin');

/** The resin as it is ordered: a grade and, on a press, the numbers that belong to it. */
@customElement('bf-lab-resin')
export class ResinPart extends LiveElement {
  static override styles = [
    controlStyles,
    partStyles,
    css`
      label { display: grid; gap: 0.125rem; font-size: var(--text-small); color: var(--soft); justify-items: start; }
      select { font-size: 1rem; color: var(--ink); }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;

  override render() {
    const { draft } = this;
    if (!draft) return nothing;
    const grade = valueAt(draft.json, 'resin.grade') ?? DEFAULT_GRADE;
    const bead = effective(draft.json, 'bed.bead_um');
    const capacity = effective(draft.json, 'resin.capacity_eq_per_L');
    const own = this.ownNumbers(draft);
    return html`<div class="row" data-path="resin.grade">
        <label>Strong-base anion exchanger, grade
          <select @change=${this.take}>${GRADE_NAMES.map((name) => html`<option value=${name} .selected=${name === grade}>${name}</option>`)}</select></label>
        ${own.length > 0 ? html`<button type="button" @click=${this.follow}>Use the numbers of the grade (${own.length} differ now)</button>` : nothing}
      </div>
      <p class="problem" role="alert">${draft.problemAt('resin.grade')}</p>
      <p class="soft">Beads of ${quantity(bead ?? Number.NaN, 'µm')} and ${quantity(capacity ?? Number.NaN, 'eq/L of bed')}.</p>
      <bf-lab-fields .draft=${draft} .more=${NUMBERS}></bf-lab-fields>`;
  }

  private ownNumbers({ json }: LabDraft): string[] {
    return Object.keys(GRADES[DEFAULT_GRADE]).filter((path) => valueAt(json, path) !== undefined);
  }

  private take(event: Event & { target: HTMLSelectElement }) {
    const { value } = event.target;
    this.draft?.set('resin.grade', value === DEFAULT_GRADE ? undefined : value);
  }

  private follow() {
    const { draft } = this;
    draft?.change(this.ownNumbers(draft).reduce<unknown>((json, path) => withValueAt(json, path, undefined), draft.json));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-resin': ResinPart;
  }
}
